#pragma once

#include "ui/forms/area.h"

namespace gk::ui {

/// Two cards of one student made one, both shown side by side first; and that undone.
AreaForm joiningCards(Context& context);
AreaForm partingCards(Context& context);

} // namespace gk::ui
