#pragma once

#include "session/values/views.h"
#include "ui/keys/icons.h"
#include "ui/lists/cell_delegate.h"

#include <QFontMetrics>

#include <optional>
#include <vector>

namespace gk::ui {

struct Pill {
  std::optional<Icon> sign; ///< none on the one that counts what has no room
  QString words;
  bool stops = false;
  bool asks = false;
};

/// The alerts of a line in the order of their weight, as many as stand whole in so many pixels;
/// then how many more there are, as "+1".
std::vector<Pill> pillsIn(const session::BoardLine& line, double width,
                          const QFontMetrics& letters);

/// Draws the alerts of a row as pills: a shape and a word each, filled only where they stop.
class BoardDelegate final : public CellDelegate {
  Q_OBJECT

 public:
  using CellDelegate::CellDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
};

} // namespace gk::ui
