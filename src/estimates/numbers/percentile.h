#pragma once

#include <vector>

namespace gk::estimates {

/// The p-quantile of sorted values, type 7 of Hyndman and Fan 1996. A value may be infinite, and
/// so then may the answer; it is never NaN. Precondition: not empty, 0 <= p <= 1.
double percentile(const std::vector<double>& sorted, double p);

} // namespace gk::estimates
