#pragma once

#include "reports/day/close_out.h"
#include "session/people_verbs.h"
#include "ui/asking/context.h"

namespace gk::ui {

/// Shows an operator her own placements of that day and has her confirm them with her PIN, where
/// she has one. False when she left it. `own` is a PIN that she has just given.
base::Result<bool> confirmPlacements(Context& context, base::MemberId who,
                                     const session::DayToConfirm& day, session::OwnPin own = {});

/// As above, of a sheet: who it is is asked, among those with something to confirm. False also
/// where no one has.
base::Result<bool> confirmPlacementsOf(Context& context, const reports::CloseOut& sheet,
                                       roster::DayId day);

/// Before the signatures each operator with a PIN is asked once; who is not there leaves hers
/// unconfirmed, and the sheet says so.
base::Result<base::Done> confirmBeforeSigning(Context& context, const reports::CloseOut& sheet,
                                              roster::DayId day);

} // namespace gk::ui
