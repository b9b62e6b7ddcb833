#pragma once

#include <QStyledItemDelegate>

namespace gk::ui {

/// Draws an area of the desk in a list: a sign for how it stands, its title, its key as a cap, and
/// its state below. The item's own text keeps all of it for who listens.
class AreaDelegate final : public QStyledItemDelegate {
  Q_OBJECT

 public:
  enum Role { title = Qt::UserRole, key, state, sign };
  enum class Sign { none, ready, ask, missing };

  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                               const QModelIndex& index) const override;
};

} // namespace gk::ui
