#pragma once

#include "ui/keys/key_bar.h"
#include "ui/visit/chair_visit.h"

namespace gk::ui {

/// The chosen teeth, not begun, that no dentist has authorized.
std::vector<dentition::ToothSurfaces> heldTeeth(const ChairVisit& visit);

/// What can be done about them: the dentist was called and says yes, or they are left for today.
/// None where no tooth is held.
std::vector<KeyAction> dentistKeys(ChairVisit& visit);

} // namespace gk::ui
