#include "session/letter_files.h"

#include "base/text.h"
#include "reports/letters/letter.h"
#include "session/letters.h"

#include <algorithm>
#include <filesystem>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Result;
using reports::LetterTemplate;

namespace {

constexpr std::size_t mostOfTemplate = std::size_t{64} * 1024U;

base::Path lettersOf(const base::Path& book) {
  return book.parent_path() / "letters";
}

/// The file in the folder that says exactly this; empty where none does.
base::Path fileSaying(const base::Path& folder, const std::string& text) {
  std::error_code unread;
  for (std::filesystem::directory_iterator at(folder, unread), end; !unread && at != end;
       at.increment(unread)) {
    if (at->path().extension() != ".txt") continue;
    const auto read = base::readFile(at->path(), mostOfTemplate);
    if (read && *read == text) return at->path();
  }
  return {};
}

/// No longer a template, and nothing is lost.
Result<base::Done> putAside(const base::Path& file) {
  std::error_code trouble;
  auto kept = file;
  kept += ".old";
  std::filesystem::rename(file, base::freeName(kept), trouble);
  if (trouble)
    return Error{ErrorCode::fileUnwritable, file.string() + ": cannot be renamed; close it first"};
  return base::Done{};
}

} // namespace

Result<std::vector<TemplateFile>> templateFiles(const base::Path& book) {
  const auto templates = letterTemplates(book);
  if (!templates) return templates.error();
  std::vector<TemplateFile> files;
  for (const auto& one : templates->all()) {
    const auto& header = one.header();
    const bool isShipped =
        std::ranges::any_of(reports::shippedTemplates(),
                            [&](const auto& shipped) { return shipped.text == one.source(); });
    auto approved = header.approvedBy;
    if (!approved.empty() && header.approvedOn) approved += ", " + header.approvedOn->words();
    files.push_back({header.language, !isShipped,
                     isShipped ? base::Path() : fileSaying(lettersOf(book), one.source()), approved,
                     one.source()});
  }
  return files;
}

Result<std::string> replaceTemplate(const base::Path& book, const base::Path& file) {
  const auto text = base::readFile(file, mostOfTemplate);
  if (!text) return text.error();
  const auto made = LetterTemplate::parse(file.filename().string(), *text);
  if (!made) return made.error();
  const auto& language = made->header().language;
  const auto before = templateFiles(book);
  if (!before) return before.error();
  const auto folder = lettersOf(book);
  if (const auto there = base::makeFolder(folder); !there) return there.error();
  auto target = base::freeName(folder / (base::folded(language) + ".txt"));
  for (const auto& one : *before)
    if (one.language == language && one.isOwn && !one.file.empty()) {
      if (one.text == *text) return language;
      if (const auto aside = putAside(one.file); !aside) return aside.error();
      target = one.file;
    }
  if (const auto written = base::replaceFile(target, *text); !written) return written.error();
  return language;
}

Result<base::Done> backToShipped(const base::Path& book, const std::string& language) {
  const auto files = templateFiles(book);
  if (!files) return files.error();
  for (const auto& one : *files)
    if (one.language == language && one.isOwn && !one.file.empty()) return putAside(one.file);
  return Error{ErrorCode::notFound, "the built-in letter in " + language + " is used already"};
}

} // namespace gk::session
