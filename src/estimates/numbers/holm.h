#pragma once

#include "base/result.h"

#include <span>
#include <vector>

namespace gk::estimates {

/// Holm 1979, Scand J Stat 6:65-70: p-values adjusted for being several, in the order given. Each
/// may be compared with the usual threshold, and the chance of any false alarm stays below it,
/// whatever the dependence between them. Fails with `estimateInput`, naming the place from 1, for
/// a value outside [0, 1].
base::Result<std::vector<double>> holmAdjusted(std::span<const double> p);

} // namespace gk::estimates
