#pragma once

#include "reports/day/close_out.h"
#include "ui/asking/context.h"

namespace gk::ui {

/// What the close-out counts before everybody leaves, each noted at once in an entry of its own.
/// False when the person backed out before anything was noted.

/// Chairs, the hours of people by role, and students taught.
base::Result<bool> sayEffort(Context& context, const reports::CloseOut& sheet, roster::DayId day);

/// Packages opened and left of a lot, or that it is set aside.
base::Result<bool> countSupply(Context& context, const reports::SupplyLine& line,
                               roster::DayId day);

/// Where the sheets with names are that went out: each sort that does not add up, then, once or
/// when asked for again, whatever else went out.
base::Result<bool> countPaperIn(Context& context, const reports::CloseOut& sheet,
                                roster::DayId day);

/// The meter's number for this light, or why it is not read.
base::Result<bool> readLightAgain(Context& context, kit::LightId light, roster::DayId day);

} // namespace gk::ui
