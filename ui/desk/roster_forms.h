#pragma once

#include "ui/desk/area.h"

namespace gk::ui {

/// A school's list of students with their forms, from a file, and the whole of one import taken
/// back by any student of it.
AreaForm importingRoster(Context& context);
AreaForm takingImportBack(session::Session& book);

} // namespace gk::ui
