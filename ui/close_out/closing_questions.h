#pragma once

#include "reports/day/close_out.h"
#include "ui/asking/context.h"

namespace gk::ui {

// What the close-out asks before everybody leaves, noted at once. False when the person backed out.

/// Where the sheets with names are that went out: each sort that does not add up, then, once or
/// when asked for again, whatever else went out.
base::Result<bool> countPaperIn(Context& context, const reports::CloseOut& sheet,
                                roster::DayId day);

/// The meter's number for this light, or why it is not read.
base::Result<bool> readLightAgain(Context& context, kit::LightId light, roster::DayId day);

/// Entries that came for a card that is joined to another: put on the kept one, once a person saw
/// both cards.
base::Result<bool> joinAgain(Context& context, const reports::Blocker& blocker);

} // namespace gk::ui
