#pragma once

#include "estimates/attack_rate/attack_rate.h"
#include "estimates/shares/program_share.h"

namespace gk::estimates {

struct ProgramRate {
  AttackRateEstimate rate;
  ProgramUnits units = ProgramUnits::children; ///< of its limits
  /// Of 2 or 3 schools: the planned likeness is the largest of the three, and so the one used.
  bool isPlanned = false;
};

/// The rate of a whole program, its limits by the number of schools as those of a share are
/// (`programShare`): from 4 schools on the larger of the variances by child and by school, with
/// Student's t on schools less one; of 2 or 3 at least the planned likeness within a school too, on
/// children less one; of one school as `attackRate` by child. `bySchool` is the same molars with
/// the school as label. `standardError` is such that the limits are normal with it. With none or
/// all affected the limits are those of `attackRate`. Coverage: docs/methods.md, section 2.
base::Result<ProgramRate> programRate(std::span<const Exposure> byChild,
                                      std::span<const Exposure> bySchool,
                                      double level = usualLevel);

} // namespace gk::estimates
