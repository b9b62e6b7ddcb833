#pragma once

#include "ui/lists/cell_delegate.h"

namespace gk::ui {

/// Draws the alerts of a row as pills: a shape and a word each, filled only where they stop.
class BoardDelegate final : public CellDelegate {
  Q_OBJECT

 public:
  using CellDelegate::CellDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
};

} // namespace gk::ui
