#pragma once

#include "base/result.h"

namespace gk::estimates {

struct Interval {
  double low;
  double high;
  bool operator==(const Interval&) const = default;
};

inline constexpr double usualLevel = 0.95;

/// part / whole. Fails with `estimateInput` when either is no count, whole is 0, or part > whole.
base::Result<double> share(double part, double whole);

/// Two-sided score interval for independent trials (Wilson 1927). Counts may be fractional, as an
/// effective sample size is. Fails as `share` does, and for a level outside 0.5 to 0.9999.
base::Result<Interval> wilson(double successes, double n, double level = usualLevel);

/// Two-sided exact interval from beta quantiles (Clopper and Pearson 1934); fractional counts as
/// Korn and Graubard 1998 use them. Fails as `wilson` does.
base::Result<Interval> clopperPearson(double successes, double n, double level = usualLevel);

} // namespace gk::estimates
