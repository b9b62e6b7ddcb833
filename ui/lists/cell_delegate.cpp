#include "ui/lists/cell_delegate.h"

#include "ui/look/style.h"

#include <QPainter>

namespace gk::ui {

void CellDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  auto cell = option;
  cell.state &= ~QStyle::State_HasFocus;
  QStyledItemDelegate::paint(painter, cell, index);
  if (!(option.state & QStyle::State_HasFocus)) return;
  constexpr int bar = 2; // the style leaves three pixels beside the text
  const auto color = style::strong();
  painter->fillRect(QRect(option.rect.left(), option.rect.top(), bar, option.rect.height()), color);
  painter->fillRect(
      QRect(option.rect.right() + 1 - bar, option.rect.top(), bar, option.rect.height()), color);
}

} // namespace gk::ui
