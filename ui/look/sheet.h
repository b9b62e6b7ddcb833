#pragma once

#include <QString>

namespace gk::ui {

/// The sheet of the whole program in the look worn now. Pages around the chair are read from near,
/// in letters of 14 px or more; the chair (#chairPage) from 80 to 120 cm. A label says what it is
/// by its property "look", so that no page sets a size or a color itself.
QString sheet();

} // namespace gk::ui
