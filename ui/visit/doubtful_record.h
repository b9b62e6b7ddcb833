#pragma once

#include "ui/visit/chair_visit.h"

namespace gk::ui {

/// Whether the logbook has a placement of ours on this tooth, of today or before.
bool hasPlacement(const ChairFile& file, const dentition::Tooth& tooth);

/// Our sealant is on `tooth` and the logbook has none there: one of the others may have been
/// written down on the wrong tooth. Asks which and corrects it; where there are none, says so.
void findPlacementOf(ChairVisit& visit, const dentition::Tooth& tooth);

/// A sealant of today was written down on the wrong tooth: asks which, where it is, and how that
/// was found.
void moveSealant(ChairVisit& visit);

/// The tooth of this placement bears no sealant that it could be: asks whether another does, and
/// corrects the record; `leave` runs when no one knows.
void findToothOf(ChairVisit& visit, const base::Recorded<chairside::Placement>& placement,
                 const std::function<void()>& leave);

} // namespace gk::ui
