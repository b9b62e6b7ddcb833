#pragma once

#include "base/result.h"

#include <array>
#include <string_view>

namespace gk::reports {

/// A sheet of labels by its measures, in points (72 to an inch).
struct LabelSheet {
  std::string_view name; ///< what a person chooses by: how many, and how large
  double sheetWidth;
  double sheetHeight;
  int columns;
  int rows;
  double width; ///< of one label
  double height;
  double left; ///< from the sheet's edge to the first label
  double top;
  double acrossStep; ///< from one label's left edge to the next one's
  double downStep;

  [[nodiscard]] constexpr int count() const { return columns * rows; }
  [[nodiscard]] constexpr double x(int place) const { return left + place % columns * acrossStep; }
  [[nodiscard]] constexpr double y(int place) const {
    return top + place / columns % rows * downStep;
  }
};

namespace measures {
constexpr double inch = 72;
constexpr double mm = 72 / 25.4;
} // namespace measures

/// Common sheets by measure. The slips are cut by hand along their lines. Margins as usual for such
/// sheets (from memory): print one on plain paper first and hold it against the labels.
inline constexpr std::array labelSheets{
    LabelSheet{"Labels 3 x 10, 2 5/8 x 1 in (letter)", 612, 792, 3, 10, 2.625 * measures::inch,
               1 * measures::inch, 0.1875 * measures::inch, 0.5 * measures::inch,
               2.75 * measures::inch, 1 * measures::inch},
    LabelSheet{"Labels 2 x 5, 4 x 2 in (letter)", 612, 792, 2, 5, 4 * measures::inch,
               2 * measures::inch, 0.15625 * measures::inch, 0.5 * measures::inch,
               4.1875 * measures::inch, 2 * measures::inch},
    LabelSheet{"Labels 3 x 8, 70 x 36 mm (A4)", 595.28, 841.89, 3, 8, 70 * measures::mm,
               36 * measures::mm, 0, 4.5 * measures::mm, 70 * measures::mm, 36 * measures::mm},
    LabelSheet{"Slips 2 x 4, cut by hand (letter)", 612, 792, 2, 4, 270, 180, 36, 36, 270, 180},
    LabelSheet{"Slips 2 x 4, cut by hand (A4)", 595.28, 841.89, 2, 4, 261, 192, 36, 36, 261, 192}};

} // namespace gk::reports
