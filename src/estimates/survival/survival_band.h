#pragma once

#include "base/random.h"
#include "estimates/survival/survival_curve.h"

namespace gk::estimates {

struct BandPoint {
  double time;
  Interval survival; ///< as SurvivalCurve::survivalAt
  /// Pointwise. None with one child.
  std::optional<Interval> band;
  /// No replicate moved off 1 (or 0), which is no proof of certainty: that limit is the exact one
  /// for the children seen whole at `time` or later (or seen failed by then), each counted once.
  bool isExactLimit;
};

struct SurvivalBand {
  std::vector<BandPoint> points; ///< one for each time asked, in that order
  std::size_t replicates;
  std::size_t children;
  bool isFewChildren; ///< under `fewestClusters` of retention.h; the band is likely too narrow
};

/// Percentile bootstrap (Efron 1979): children are drawn with replacement, all teeth of a child
/// together, and the whole curve is fitted again; limits are percentiles (type 7 of Hyndman and Fan
/// 1996) of the lower and of the upper ends of survival. The same seed gives the same band. Fails
/// as `survivalCurve` does, for fewer than 100 replicates or more than 100,000, for a time that is
/// negative or not finite, and for a level outside 0.5 to 0.9999.
base::Result<SurvivalBand> survivalBand(std::span<const Spell> spells,
                                        std::span<const double> times, std::size_t replicates,
                                        base::Random& random, double level = usualLevel);

} // namespace gk::estimates
