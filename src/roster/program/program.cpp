#include "roster/program/program.h"

#include "base/text/text.h"

#include <algorithm>

namespace gk::roster {

using base::Error;
using base::ErrorCode;
using base::Result;

std::string shownAmong(const School& school, std::span<const base::Recorded<School>> all) {
  const auto called =
      std::ranges::count_if(all, [&](const auto& one) { return one.value.name == school.name; });
  return called > 1 ? school.name + " (" + school.code + ")" : school.name;
}

Result<Program> soundProgram(Program program) {
  for (const auto& [text, otherwise] :
       {std::pair(&program.name, "the program needs a name"),
        {&program.county, "the program needs a county, as printed on letters"},
        {&program.phone, "the program needs a phone number, as printed on letters"}})
    if (const auto filled = base::fillIn(*text, otherwise); !filled) return filled.error();
  if (program.suppressBelow < 5)
    return Error{ErrorCode::numberMalformed, "small counts are suppressed below 5 at least"};
  for (const auto& share : {program.benchmarks.consented, program.benchmarks.screened,
                            program.benchmarks.sealed, program.benchmarks.retained})
    if (share && (*share < 1 || *share > 100))
      return Error{ErrorCode::numberMalformed, "a benchmark is 1 to 100 percent, or none"};
  return program;
}

Result<int> gradeNumber(std::string_view grade) {
  grade = base::trim(grade);
  if (grade == "K" || grade == "k") return 0;
  const auto number = base::parseInt(grade);
  if (!number || *number < 1 || *number > 12)
    return Error{ErrorCode::textMalformed, "that is not a grade; write K or 1 to 12"};
  return static_cast<int>(*number);
}

Result<std::string> parseGrade(std::string_view text) {
  const auto number = gradeNumber(text);
  if (!number) return number.error();
  return *number == 0 ? std::string("K") : std::to_string(*number);
}

} // namespace gk::roster
