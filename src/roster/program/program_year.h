#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "base/result.h"
#include "base/time/date.h"

#include <string>

namespace gk::roster {

using YearId = base::Id<struct YearTag>;

enum class YearKind { school, grant, fiscal };

/// A span over which the program counts each child once, whatever terms lie in it. Years of several
/// kinds may overlap.
struct ProgramYear {
  using Key = YearId;
  std::string name; ///< such as 2026-27; unique
  YearKind kind = YearKind::school;
  base::Date start;
  base::Date end; ///< the last day of it
  bool operator==(const ProgramYear&) const = default;

  [[nodiscard]] bool overlaps(base::Date from, base::Date until) const {
    return start <= until && from <= end;
  }
};

/// "School year 2026-27", as a report is headed.
std::string wordsOf(const ProgramYear& year);

/// As it is entered, its name without blanks around it. Fails with `textMalformed` without a name,
/// and with `ruleDate` where it ends before it starts or is longer than a year and a week, the
/// longest that a fiscal year of weeks has.
base::Result<ProgramYear> soundYear(ProgramYear year);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::YearKind> =
    std::to_array<std::string_view>({"school year", "grant year", "fiscal year"});
