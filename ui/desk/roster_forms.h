#pragma once

#include "ui/desk/list_page.h"
#include "ui/forms/area.h"

namespace gk::ui {

/// A school's list, from a file, which `show` shows before anything is written; and the whole of
/// one import taken back by any student of it.
AreaForm importingRoster(Context& context, const ShowList& show);
AreaForm takingImportBack(session::Session& book);
/// A student who is expected no more, and who is again.
AreaForm leavingStudent(Context& context);
AreaForm returningStudent(session::Session& book);
/// Whether and when a student left, by the fields of `leavingStudent`.
void setLeaving(Values& values, const std::optional<roster::Leaving>& left);

} // namespace gk::ui
