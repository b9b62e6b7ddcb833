#pragma once

namespace gk::ui {

/// Tells readers of the screen what the parts of the mouth map are: a list of teeth, each with its
/// surfaces as boxes that are checked when they are to be sealed and can be pressed. Precondition:
/// there is a QApplication. May be called again.
void makeMouthAccessible();

} // namespace gk::ui
