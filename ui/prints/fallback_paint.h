#pragma once

#include "ui/prints/print_pages.h"

#include <QStringList>

namespace gk::ui {

/// What the paper sheet of one child says before the visit. The rest is boxes in the order of the
/// chair's screen, so that it is typed from top to bottom afterwards.
struct FallbackSheet {
  QString sheet; ///< number printed on it, asked for when it is typed
  std::string number;
  QString name; ///< blank lines where the names are locked
  QString birth;
  QString place; ///< school, room, grade
  QString date;
  QString consent;    ///< what the form allows that day
  QStringList alerts; ///< open health alerts
  QStringList teeth;  ///< the eight molars in chart order, as the program numbers them
  QString minimums;   ///< "etch 20 s, rinse 10 s"
};

/// One sheet of paper, on both sizes. Where its last line ends, in points from the top.
double paintFallback(QPainter& painter, const FallbackSheet& sheet, PaperSize paper);

} // namespace gk::ui
