#pragma once

#include "dentition/surfaces.h"

#include <QRect>
#include <QSize>

#include <optional>
#include <vector>

/// Where things stand in a mouth that one looks into from the front: the child's right on the
/// viewer's left, upper teeth on top; never mirrored.
namespace gk::ui {

enum class TabSide { left, right, top, bottom };

/// Where the cheek is, seen from a tooth. The arch bends: its front teeth lie across the picture,
/// with the lip above the upper and below the lower ones, but from the premolars on it runs away
/// from the viewer, so that the cheek is at the outer side (left for the child's right) and the
/// tongue towards the middle. Hence the tab of a buccal pit points outwards and that of a lingual
/// groove inwards, which is not where a chart unrolled to a line has them.
TabSide cheekSide(const dentition::Tooth& tooth);
TabSide tongueSide(const dentition::Tooth& tooth);
/// Of a companion surface; none for the chewing surface.
std::optional<TabSide> tabSide(const dentition::Tooth& tooth, dentition::Surface surface);

/// Places of the map in a rectangle of this size. Second molars are narrower; `other`
/// teeth get a row under them.
class Arch {
 public:
  Arch(QSize size, int band, int others);

  /// Of one of the eight permanent molars.
  [[nodiscard]] QRect molar(const dentition::Tooth& tooth) const;
  /// Of the others, from left to right.
  [[nodiscard]] QRect other(int place) const;
  [[nodiscard]] int rowHeight() const { return row_; }

 private:
  QSize size_;
  int band_; ///< above, for the words of the sides
  int others_;
  int otherRow_ = 0;
  int row_ = 0;
};

} // namespace gk::ui
