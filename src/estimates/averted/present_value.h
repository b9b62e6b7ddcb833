#pragma once

#include "base/result.h"

namespace gk::estimates {

/// What `yearly`, received at the end of each of `years` years, is worth today at the discount
/// rate `rate` (0.03 is 3 % a year). Any currency; costs are the user's own. Fails with
/// `estimateInput` for a yearly sum that is not finite, years below 0, or a rate not in [0, 1].
base::Result<double> presentValue(double yearly, int years, double rate);

} // namespace gk::estimates
