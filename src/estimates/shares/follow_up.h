#pragma once

#include "estimates/shares/proportion.h"

#include <optional>

namespace gk::estimates {

/// Sealed teeth, or children, that were due for a check; how many were examined and how many of
/// those kept the sealant.
struct FollowUp {
  double due;
  double examined;
  double kept;
};

struct FollowUpBounds {
  double followed;                ///< examined / due
  std::optional<double> observed; ///< kept / examined; none when no one was examined
  /// Of kept / due, with `ifNotExamined` for those not examined.
  Interval bounds;
};

/// How far those not examined could move the answer (Manski 1989, J Hum Resour 24:343-60). With the
/// default every one of them may have lost it, or none: no assumption at all. A narrower range is
/// the caller's assumption and has to be printed. Sampling error is not in it. Fails with
/// `estimateInput` for counts that are negative, not finite, with more kept than examined or more
/// examined than due, when none was due, and for a range outside [0, 1] or not from low to high.
base::Result<FollowUpBounds> followUpBounds(const FollowUp& counts,
                                            Interval ifNotExamined = {0, 1});

} // namespace gk::estimates
