#pragma once

#include "ui/look/look.h"

#include <QColor>

#include <functional>

class QWidget;

/// Colors and sizes of the look that is worn now; nothing else in the program names a color. A
/// color never says anything alone: a word or a shape says it too.
namespace gk::ui::style {

/// By what they are for. They stay apart for color-blind eyes and through an amber filter;
/// tests/ui/totals/filters_test.cpp says in numbers how far.
struct Colors {
  QColor ink;        ///< words and thick lines
  QColor quiet;      ///< second words
  QColor ground;     ///< the page
  QColor card;       ///< what belongs together lies on it: tables, fields, tiles
  QColor sunk;       ///< key caps, rows of a group, the line of messages
  QColor line;       ///< hair lines, never the only sign
  QColor edge;       ///< lines of what can be pressed
  QColor strong;     ///< what stands out: the main act, what is in hand now
  QColor onStrong;   ///< words on it
  QColor soft;       ///< the chosen row, a step that is done
  QColor hand;       ///< ground of what is in hand
  QColor ask;        ///< asks for something; nothing is wrong yet
  QColor alarm;      ///< sparingly: stop, contaminated, trouble
  QColor onAlarm;    ///< words on it
  QColor alarmSoft;  ///< ground of words about trouble
  QColor cured;      ///< fill of a covered surface
  QColor onCured;    ///< signs on it
  QColor focus;      ///< where the keyboard is, and nothing else
  QColor rail;       ///< ground of the navigation
  QColor onRail;     ///< words on it
  QColor railOn;     ///< the place one is in
  QColor onRailOn;   ///< words on it
  QColor railQuiet;  ///< second words on the rail
  QColor chart;      ///< in a picture: what it is about
  QColor chartOdd;   ///< what is pointed at; always another shape too
  QColor chartQuiet; ///< the others
};

const Colors& colors(Scheme scheme);

/// Those of the look that is worn.
inline const Colors& worn() {
  return colors(lookNow().scheme);
}
inline QColor ink() {
  return worn().ink;
}
inline QColor quiet() {
  return worn().quiet;
}
inline QColor card() {
  return worn().card;
}
inline QColor sunk() {
  return worn().sunk;
}
inline QColor line() {
  return worn().line;
}
inline QColor edge() {
  return worn().edge;
}
inline QColor strong() {
  return worn().strong;
}
inline QColor onStrong() {
  return worn().onStrong;
}
inline QColor hand() {
  return worn().hand;
}
inline QColor alarm() {
  return worn().alarm;
}
inline QColor cured() {
  return worn().cured;
}
inline QColor onCured() {
  return worn().onCured;
}
inline QColor soft() {
  return worn().soft;
}
inline QColor ground() {
  return worn().ground;
}

/// Pixels at the usual size, as many as they are in the size worn.
int px(int atHundred);

/// For reading at 80 to 120 cm.
inline int toothText() {
  return px(24);
}
/// The timer is big at every size.
inline constexpr int timerText = 100;

/// Sets the property that the sheet reads, and has it read at once.
void wear(QWidget& widget, const QString& look);

/// Calls now and again whenever the look changes: for sizes that no sheet sets.
void whenDressed(QWidget* widget, std::function<void()> fit);

} // namespace gk::ui::style
