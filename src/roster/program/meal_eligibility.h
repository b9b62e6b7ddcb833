#pragma once

#include "roster/program/program.h"

namespace gk::roster {

using EligibilityId = base::Id<struct EligibilityTag>;

/// The share of a school's students with free or reduced-price meals, by which programs choose
/// schools, as someone else published it.
struct MealEligibility {
  using Key = EligibilityId;
  TermId term;
  SchoolId school;
  int percent = 0;    ///< 0-100
  std::string source; ///< who published it, and of which year
  bool operator==(const MealEligibility&) const = default;
};

} // namespace gk::roster
