#pragma once

#include "ui/field/field_steps.h"

#include <functional>

namespace gk::ui {

/// The child refuses, is unwell, or time ran out; one question, one answer, one act. Before a
/// screening it ends the child's day; after it, teeth in hand are stopped and those not begun are
/// decided otherwise, and the visit goes on to its finish. Etchant that is on is rinsed off first,
/// and sealant that is on but not cured may be cured. `steps` are those of a field in hand, or
/// none; `then` is called when all is written.
void stopChild(ChairVisit& visit, FieldSteps* steps, const std::function<void()>& then);

} // namespace gk::ui
