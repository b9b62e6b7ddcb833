#pragma once

#include "reports/print/table.h"

#include <QFont>

#include <vector>

namespace gk::ui {

/// One unit is a point, so that lines break alike on every device.
QFont paperFont(double points, bool bold = false);

/// The widest that these words come to without a break, and the widest word among them.
double widthOf(const QString& words, const QFont& font);
double widestWord(const QString& words, const QFont& font);

/// Some columns of a table that stand side by side.
struct Band {
  std::vector<std::size_t> columns;
  std::vector<double> widths; ///< with the gap behind each
};

inline constexpr double largestLetters = 9; ///< points, of the rows of a table
inline constexpr double smallLetters = 8;

/// How a table is laid on `room`: letters as large as they can be up to `largest`, and more than
/// one band, each with the first column, where even the smallest need it.
struct ColumnPlan {
  double points;
  std::vector<Band> bands;
};
ColumnPlan planColumns(const reports::Table& table, double room, double largest = largestLetters);

/// Whether its columns would be squeezed on a sheet so wide.
bool isSqueezed(const reports::Table& table, double room);

} // namespace gk::ui
