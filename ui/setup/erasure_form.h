#pragma once

#include "ui/forms/area.h"

namespace gk::ui {

/// A student's records taken out for good, as a law requires: what would go is counted first, and
/// the person types that count.
AreaForm erasingStudent(Context& context);

} // namespace gk::ui
