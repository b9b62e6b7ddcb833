#pragma once

#include <QStyledItemDelegate>

namespace gk::ui {

/// Marks the cell that the keyboard is in by bars in its margins, so that its text has the room of
/// any other cell's. A border of the sheet takes its room from the text and cuts it.
class CellDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
};

} // namespace gk::ui
