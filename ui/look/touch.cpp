#include "ui/look/touch.h"

#include <QGuiApplication>
#include <QScreen>

#include <cmath>

namespace gk::ui::style {

namespace {

constexpr double usual = 96.0;
/// A wall screen has about 40 dots an inch, a small tablet about 300.
constexpr double fewest = 50.0;
constexpr double most = 350.0;
constexpr double millimetersPerInch = 25.4;

} // namespace

int pixelsFor(double millimeters, double dotsPerInch) {
  const bool isSane = dotsPerInch >= fewest && dotsPerInch <= most;
  return static_cast<int>(
      std::ceil(millimeters / millimetersPerInch * (isSane ? dotsPerInch : usual)));
}

int pixelsFor(double millimeters) {
  const auto* screen = QGuiApplication::primaryScreen();
  return pixelsFor(millimeters, screen ? screen->physicalDotsPerInch() : usual);
}

int touch() {
  return pixelsFor(15.0);
}

int touchGap() {
  return pixelsFor(3.0);
}

} // namespace gk::ui::style
