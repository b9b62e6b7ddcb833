#pragma once

#include <QStyledItemDelegate>

namespace gk::ui {

/// Marks the cell that the keyboard is in by bars in its margins, so that its text has the room of
/// any other cell's. A border of the sheet takes its room from the text and cuts it. Figures have
/// digits of one width, so that they stand in columns.
class CellDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                               const QModelIndex& index) const override;

 private:
  /// False where the cell holds words, or has no room for digits of one width: the style cuts it
  /// then with three dots.
  bool paintFigure(QPainter& painter, const QStyleOptionViewItem& option,
                   const QModelIndex& index) const;
};

} // namespace gk::ui
