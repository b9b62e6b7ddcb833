#pragma once

#include "ui/desk/list_page.h"
#include "ui/forms/area.h"

namespace gk::ui {

/// A school's list, from a file, which `show` shows before anything is written; and the whole of
/// one import taken back by any student of it.
AreaForm importingRoster(Context& context, const ShowList& show);
AreaForm takingImportBack(session::Session& book);

} // namespace gk::ui
