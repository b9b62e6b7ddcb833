#pragma once

#include "base/time/date.h"

#include <array>
#include <string_view>
#include <vector>

namespace gk::demo {

/// Must exist.
base::Date on(int year, unsigned month, unsigned day);

struct GradeCount {
  std::string_view grade;
  int students;
};

/// One school's line of a term, in the columns of the report.
struct SchoolTerm {
  std::vector<GradeCount> enrolled;
  int formsBack;
  int consented; ///< screened + absent + declined + left
  int screened;
  int absent;
  int declined;
  int left;
  int needing;
  int sealed;
  int unfinished; ///< of sealed
  int firstMolars;
  int secondMolars;
  int varnish;
  int early;  ///< with untreated decay, not urgent
  int urgent; ///< with untreated decay
  std::vector<base::Date> days;
};

/// What the checks of fall 2026 find on the sealants of fall 2025. Teeth, but for children.
struct OneYear {
  int sealed; ///< children
  int placed;
  int found; ///< children
  int examined;
  int whole;
  int part;
  int lost;
  int cannotAssess;
};

/// Which laptop a school's days are entered on.
enum class Desk { a, b };

struct School {
  std::string_view name;
  std::string_view code;
  Desk laptop;
  int mealsPercent; ///< students with free or reduced-price meals
  SchoolTerm autumn2025;
  SchoolTerm autumn2026;
  OneYear oneYear;
};

/// In the order of the alphabet; `cobbleLantern` is the place of that school in it.
const std::array<School, 6>& county();
inline constexpr std::size_t alderHollow = 0;
inline constexpr std::size_t cobbleLantern = 2;

} // namespace gk::demo
