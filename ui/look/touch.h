#pragma once

namespace gk::ui::style {

/// How many pixels so many millimeters are at a density in dots an inch, rounded up. A density that
/// no screen has (drivers report 0, or the size of a projector) counts as 96, the usual one.
int pixelsFor(double millimeters, double dotsPerInch);

/// The same on the first screen.
int pixelsFor(double millimeters);

/// A target for a gloved finger, 15 mm (common practice, no source).
int touch();
/// What stands between two of them, 3 mm.
int touchGap();

} // namespace gk::ui::style
