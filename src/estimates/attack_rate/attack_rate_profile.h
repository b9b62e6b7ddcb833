#pragma once

#include "estimates/attack_rate/attack_rate.h"

namespace gk::estimates {

struct AttackRateProfile {
  double annual;
  double logLikelihood; ///< at `annual`, without the binomial coefficients
  /// Where twice the fall of the log-likelihood reaches the chi-squared point of one degree. Counts
  /// molars as independent, so it is too narrow where they decay together.
  Interval independent;
  /// The same with the fall divided by `designEffect` (Rao and Scott 1984, Ann Stat 12:46-60). The
  /// one to print.
  Interval clustered;
  /// Child-clustered over model variance, at least 1. With one child, or with none or all affected,
  /// as if each child had one molar.
  double designEffect;
};

/// Likelihood limits of the annual attack rate. They need no normal approximation on any scale and
/// never leave [0, 1]. Fails as `attackRate` does.
base::Result<AttackRateProfile> attackRateProfile(std::span<const Exposure> rows,
                                                  double level = usualLevel);

} // namespace gk::estimates
