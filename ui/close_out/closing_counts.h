#pragma once

#include "reports/day/close_out.h"
#include "ui/asking/context.h"

namespace gk::ui {

/// What the close-out asks beside the care, in an entry of its own at once. False when the person
/// backed out before anything was noted.

/// Chairs, the hours of people by role, and students taught.
base::Result<bool> sayEffort(Context& context, const reports::CloseOut& sheet, roster::DayId day);

/// Packages opened and left of a lot, or that it is set aside.
base::Result<bool> countSupply(Context& context, const reports::SupplyLine& line,
                               roster::DayId day);

} // namespace gk::ui
