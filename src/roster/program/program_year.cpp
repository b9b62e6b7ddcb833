#include "roster/program/program_year.h"

#include "base/text/text.h"
#include "roster/program/display_names.h"

namespace gk::roster {

using base::Error;
using base::ErrorCode;

namespace {

constexpr int longestYear = 372; ///< days; a fiscal year of whole weeks has at most 371

} // namespace

std::string wordsOf(const ProgramYear& year) {
  std::string kind(base::displayName(year.kind));
  kind.front() = static_cast<char>(kind.front() - 'a' + 'A');
  return kind + " " + year.name;
}

base::Result<ProgramYear> soundYear(ProgramYear year) {
  if (const auto filled = base::fillIn(year.name, "a year needs a name, such as 2026-27"); !filled)
    return filled.error();
  if (year.end <= year.start)
    return Error{ErrorCode::ruleDate, "the year ends before it starts; check both dates"};
  if (base::daysBetween(year.start, year.end) > longestYear)
    return Error{ErrorCode::ruleDate, "the year is longer than a year and a week; check both "
                                      "dates"};
  return year;
}

} // namespace gk::roster
