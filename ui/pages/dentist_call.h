#pragma once

#include "ui/pages/chair_visit.h"
#include "ui/widgets/key_bar.h"

namespace gk::ui {

/// The chosen teeth, not begun, that no dentist has authorized.
std::vector<dentition::ToothSurfaces> heldTeeth(const ChairVisit& visit);

/// What can be done about them: the dentist was called and says yes, or they are left for today.
/// None where no tooth is held.
std::vector<KeyAction> dentistKeys(ChairVisit& visit);

} // namespace gk::ui
