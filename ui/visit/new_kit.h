#pragma once

#include "ui/visit/chair_visit.h"

namespace gk::ui {

/// A lot that is not in the logbook yet: of which material, and, where the code does not say it,
/// until when. The rest is as of that material's last lot. It is carried from then on; one that may
/// not be used says why, and so does a code that is no lot's.
void addLot(ChairVisit& visit, const QString& code);
/// Asks for its number first, which may be begun; the expiry may stand behind it: "RF-2706 0627".
/// The material in use is the one that Enter means.
void typeLot(ChairVisit& visit, const QString& begun = {});
/// Asks for the tag alone; what else a light has is entered at the desk.
void typeLight(ChairVisit& visit);

} // namespace gk::ui
