#pragma once

#include <QString>

namespace gk::ui {

/// A light theme on every desktop, also where the desktop's own is dark: bright rooms ask for it.
/// Precondition: there is a QApplication.
void dress();

/// For the pages around the chair: smaller than the chair's own sheet, since they are read from
/// near, and never under 14 px.
QString deskSheet();

} // namespace gk::ui
