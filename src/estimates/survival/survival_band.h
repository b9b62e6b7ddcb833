#pragma once

#include "base/random.h"
#include "estimates/survival/survival_curve.h"

namespace gk::estimates {

struct BandPoint {
  double time;
  Interval survival; ///< as SurvivalCurve::survivalAt
  /// Pointwise. None with one child, or with schools too few to resample.
  std::optional<Interval> band;
  /// No replicate moved off 1 (or 0), which is no proof of certainty: that limit is the exact one
  /// for `settled` children.
  bool isExactLimit;
  /// Of an exact limit: children looked at from `time` until the first look that found a sealant
  /// failed of which it is not known whether it held at `time`, all of them whole; for a limit at 0
  /// those found failed by `time`, back to the last that was found whole. Whom a later look found
  /// whole is not among them: its fellow that was found failed then would be left out.
  std::size_t settled;
};

/// What the band draws with replacement.
enum class BandUnits {
  children,
  schools,      ///< all teeth of a school together
  tooFewSchools ///< 2 or 3, which no drawing shows: no band
};

struct SurvivalBand {
  std::vector<BandPoint> points; ///< one for each time asked, in that order
  std::size_t replicates;
  std::size_t children;
  bool isFewChildren; ///< under `fewestClusters` of retention.h; the band is likely too narrow
  BandUnits units;
  std::size_t schools; ///< with a look that judged a sealant
};

/// Percentile bootstrap (Efron 1979): children are drawn with replacement, all teeth of a child
/// together, and the whole curve is fitted again; limits are percentiles (type 7 of Hyndman and Fan
/// 1996) of the lower and of the upper ends of survival. By the number of schools, as a program's
/// share (`programUnits`): from `fewestSchools` on schools are drawn, and each limit is moved away
/// from the estimate by t(m - 1) / z sqrt(m / (m - 1)), as m schools show their spread poorly;
/// under `fewestClusters` schools the band is nowhere narrower than that of children. The same seed
/// gives the same band. Fails as `survivalCurve` does, for fewer than 100 replicates or more than
/// 100,000, for a time that is negative or not finite, and for a level outside 0.5 to 0.9999.
base::Result<SurvivalBand> survivalBand(std::span<const Spell> spells,
                                        std::span<const double> times, std::size_t replicates,
                                        base::Random& random, double level = usualLevel);

} // namespace gk::estimates
