#pragma once

#include <QRectF>

class QColor;
class QPainter;

namespace gk::ui {

/// Line drawings that stand beside a word and never alone.
enum class Icon {
  board,
  chair,
  closeOut,
  totals,
  desk,
  flag,
  hide,
  lock,
  stop,
  drop,
  tick,
  ask,
  note,
  redo,
  mail,
  phone,
  find,
  go,
  down,
  clock,
  team,
  box,
  school,
  calendar,
  laptop,
  shield,
  save,
  cross,
  dash
};

/// In one color, on the grid of 24 scaled to the box.
void paintIcon(QPainter& painter, const QRectF& box, Icon icon, const QColor& ink);

/// The mark of the program: a tooth seen from the side, its groove filled.
void paintMark(QPainter& painter, const QRectF& box, const QColor& line, const QColor& groove);

} // namespace gk::ui
