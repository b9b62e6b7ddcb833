#pragma once

#include "base/result.h"

#include <string>
#include <string_view>

namespace gk::estimates {

/// Shared refusals; each fails with `estimateInput`.
base::Error refused(std::string detail);

/// A number for an error's sentence: whole numbers plain, others with four decimals.
std::string shown(double value);

/// From 0 to a thousand million, beyond which the intervals are not computed. `name` begins the
/// sentence, such as "Row 3: the examined count".
base::Result<base::Done> checkCount(std::string_view name, double value);

/// As `checkCount`, and whole.
base::Result<base::Done> checkWhole(std::string_view name, double value);

/// Two counts as `checkCount` has them, the first no more than the second.
base::Result<base::Done> checkPart(std::string_view where, double kept, double examined);

/// Within [0, 1].
base::Result<base::Done> checkShare(std::string_view name, double value);

/// A confidence level from 0.5 to 0.9999.
base::Result<base::Done> checkLevel(double level);

} // namespace gk::estimates
