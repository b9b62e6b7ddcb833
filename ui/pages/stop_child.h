#pragma once

#include "ui/pages/chair_visit.h"

#include <functional>

namespace gk::ui {

/// The child refuses, is unwell, or time ran out; one question, one answer. Before a screening it
/// ends the child's day; after it, teeth in hand are stopped and those not begun are decided
/// otherwise, and the visit goes on to its finish. Sealant that is on but not cured may be cured
/// first. `before` is called once the reason is chosen, `then` when all is written.
void stopChild(ChairVisit& visit, const std::function<void()>& before,
               const std::function<void()>& then);

} // namespace gk::ui
