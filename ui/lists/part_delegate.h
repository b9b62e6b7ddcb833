#pragma once

#include <QStyledItemDelegate>

namespace gk::ui {

/// Draws a part of a work in a list: a sign for how far it is, its name, and its state at the
/// right, or below where the letters are large. The item keeps a PartState in its roles.
class PartDelegate final : public QStyledItemDelegate {
  Q_OBJECT

 public:
  enum Role { section = Qt::UserRole, words, state, mark };

  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                               const QModelIndex& index) const override;
};

} // namespace gk::ui
