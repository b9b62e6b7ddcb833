#pragma once

#include "ui/support/look.h"

#include <QColor>

#include <functional>

class QWidget;

/// Colours and sizes of the look that is worn now; nothing else in the program names a colour. A
/// colour never says anything alone: a word or a shape says it too.
namespace gk::ui::style {

/// By what they are for. They stay apart for colour-blind eyes and through an amber filter;
/// tests/ui/filters_test.cpp says in numbers how far.
struct Colours {
  QColor ink;      ///< words and thick lines
  QColor paper;    ///< the ground
  QColor shade;    ///< ground of buttons and headings
  QColor edge;     ///< quiet lines and words
  QColor strong;   ///< what stands out: chosen, the next act
  QColor onStrong; ///< words on it
  QColor alarm;    ///< sparingly: stop, wet, trouble
  QColor onAlarm;  ///< words on it
  QColor cured;    ///< fill of a covered surface
  QColor hand;     ///< ground of what is in hand
};

const Colours& colours(Scheme scheme);

inline QColor ink() {
  return colours(lookNow().scheme).ink;
}
inline QColor paper() {
  return colours(lookNow().scheme).paper;
}
inline QColor shade() {
  return colours(lookNow().scheme).shade;
}
inline QColor edge() {
  return colours(lookNow().scheme).edge;
}
inline QColor strong() {
  return colours(lookNow().scheme).strong;
}
inline QColor onStrong() {
  return colours(lookNow().scheme).onStrong;
}
inline QColor alarm() {
  return colours(lookNow().scheme).alarm;
}
inline QColor cured() {
  return colours(lookNow().scheme).cured;
}
inline QColor hand() {
  return colours(lookNow().scheme).hand;
}

/// Pixels at the usual size, as many as they are in the size worn.
int px(int atHundred);

/// For reading at 80 to 120 cm.
inline int toothText() {
  return px(24);
}
/// The timer is big at every size.
inline constexpr int timerText = 112;

/// Calls now and again whenever the look changes: for sizes that no sheet sets.
void whenDressed(QWidget* widget, std::function<void()> fit);

} // namespace gk::ui::style
