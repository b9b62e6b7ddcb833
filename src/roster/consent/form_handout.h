#pragma once

#include "base/time/date.h"
#include "roster/program/program.h"

#include <string>

namespace gk::roster {

using HandoutId = base::Id<struct HandoutTag>;

/// Blank consent forms that went to one room of a school. Corrected to no copies, it was a mistake.
struct FormHandout {
  using Key = HandoutId;
  TermId term;
  SchoolId school;
  std::string room; ///< empty: the school as a whole
  base::Date on;
  int copies;
  std::string version{};  ///< printed on the form
  std::string language{}; ///< in which it is printed
  bool operator==(const FormHandout&) const = default;
};

constexpr int mostCopies = 5000; ///< at once to one room; more is a slip of the fingers

/// Fails with `numberMalformed` below none or above `mostCopies`, with `ruleDate` after `today`.
base::Result<base::Done> checkHandout(const FormHandout& handout, base::Date today);

} // namespace gk::roster
