#pragma once

namespace gk::ui {

/// Tells readers of the screen that the timer is a clock, and its numerals when they ask for its
/// value. It is never announced by itself: ten times a second would drown everything else.
/// Precondition: there is a QApplication. May be called again.
void makeTimerAccessible();

} // namespace gk::ui
