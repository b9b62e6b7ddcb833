#include "session/book/archive.h"

#include "session/part.h"

#include "base/text/text.h"

#include <algorithm>
#include <cctype>
#include <filesystem>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// Of a year's name, what any drive takes in a file's name.
std::string fileWords(const std::string& name) {
  std::string words;
  for (const char c : name)
    words += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '-';
  return words;
}

} // namespace

Result<std::string> archiveName(Reader& book, roster::YearId id, base::Date today) {
  if (const auto whole = needsWhole(book, "a year is archived"); !whole) return whole.error();
  const auto years = book.years();
  if (!years) return years.error();
  const auto year = std::ranges::find(*years, id, &Recorded<roster::ProgramYear>::id);
  if (year == years->end()) return Error{ErrorCode::notFound, "no such year"};
  if (today <= year->value.end)
    return Error{ErrorCode::ruleDate, year->value.name + " ends on " + year->value.end.words() +
                                          "; a year is archived once it is over"};
  const auto terms = book.terms();
  if (!terms) return terms.error();
  std::vector<std::string> open;
  for (const auto& term : *terms) {
    const auto days = book.days(term.id);
    if (!days) return days.error();
    for (const auto& day : *days) {
      const auto& date = day.value.date;
      if (day.value.canceled || date < year->value.start || year->value.end < date) continue;
      const auto closed = book.isSigned(day.id);
      if (!closed) return closed.error();
      if (!*closed) open.push_back(date.words());
    }
  }
  if (!open.empty())
    return Error{ErrorCode::ruleDayOpen, "these school days of " + year->value.name +
                                             " are not signed: " + base::join(open, "; ") +
                                             ". Sign or cancel them first"};
  return book.path().stem().string() + "-" + fileWords(year->value.name) + "-archive.gkbook";
}

Result<base::Done> writeArchive(Snapshot& book, const base::Path& target,
                                const base::Progress& progress) {
  std::error_code trouble;
  if (std::filesystem::exists(target, trouble))
    return Error{ErrorCode::fileUnwritable,
                 target.string() + ": there is such a file already; choose another name"};
  if (const auto written = book.backUp(target, progress); !written) return written.error();
  using std::filesystem::perms;
  std::filesystem::permissions(target,
                               perms::owner_write | perms::group_write | perms::others_write,
                               std::filesystem::perm_options::remove, trouble);
  if (trouble)
    return Error{ErrorCode::fileUnwritable,
                 target.string() +
                     ": the archive is written and verified, but this disk does not "
                     "keep a file from being written (" +
                     trouble.message() + "); lock the drive away, or copy the archive elsewhere"};
  return base::Done{};
}

} // namespace gk::session
