#pragma once

#include "ui/visit/chair_visit.h"

#include <functional>

namespace gk::ui {

/// Whether the dentist's agreement lets teeth be isolated today. Where it is over, asks the
/// clinician at work to take that on with a reason, and does `then` when that is written.
bool agreementHolds(ChairVisit& visit, std::function<void()> then);

} // namespace gk::ui
