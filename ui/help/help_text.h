#pragma once

#include <QString>

namespace gk::ui {

/// Help on a page by the object name of the page: what it is for, and what comes next. Plain text.
QString helpOn(const QString& page);

} // namespace gk::ui
