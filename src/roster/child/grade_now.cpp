#include "roster/child/grade_now.h"

#include "roster/program/program.h"

#include <algorithm>

namespace gk::roster {

std::string gradeNow(std::string_view grade, base::Date asOf, base::Date on) {
  constexpr unsigned july = 7;
  constexpr int last = 12;
  const auto schoolYear = [](base::Date date) {
    return date.month() >= july ? date.year() : date.year() - 1;
  };
  const auto number = gradeNumber(grade);
  if (!number) return std::string(grade);
  const int now = *number + std::max(0, schoolYear(on) - schoolYear(asOf));
  if (now > last) return {};
  return now == 0 ? "K" : std::to_string(now);
}

} // namespace gk::roster
