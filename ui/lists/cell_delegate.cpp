#include "ui/lists/cell_delegate.h"

#include "ui/look/numerals.h"
#include "ui/look/style.h"

#include <QApplication>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace gk::ui {

namespace {

/// Figures to the right are compared with those above and below them. To the left stand the number
/// of a student, a phone, a date: even places would only be gaps in them.
bool standsInColumn(const QStyleOptionViewItem& cell) {
  return cell.displayAlignment.testFlag(Qt::AlignRight) && isFigure(cell.text);
}

} // namespace

void CellDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  auto cell = option;
  cell.state &= ~QStyle::State_HasFocus;
  if (!paintFigure(*painter, cell, index)) QStyledItemDelegate::paint(painter, cell, index);
  if (!(option.state & QStyle::State_HasFocus)) return;
  constexpr int bar = 2; // the style leaves three pixels beside the text
  const auto color = style::strong();
  painter->fillRect(QRect(option.rect.left(), option.rect.top(), bar, option.rect.height()), color);
  painter->fillRect(
      QRect(option.rect.right() + 1 - bar, option.rect.top(), bar, option.rect.height()), color);
}

bool CellDelegate::paintFigure(QPainter& painter, const QStyleOptionViewItem& option,
                               const QModelIndex& index) const {
  auto cell = option;
  initStyleOption(&cell, index);
  if (!standsInColumn(cell)) return false;
  const auto* worn = cell.widget ? cell.widget->style() : QApplication::style();
  const int beside = worn->pixelMetric(QStyle::PM_FocusFrameHMargin, &cell, cell.widget) + 1;
  const auto box = worn->subElementRect(QStyle::SE_ItemViewItemText, &cell, cell.widget)
                       .adjusted(beside, 0, -beside, 0);
  if (evenWidth(cell.text, QFontMetricsF(cell.font)) > box.width()) return false;
  const auto text = cell.text;
  cell.text.clear(); // the style draws the ground
  worn->drawControl(QStyle::CE_ItemViewItem, &cell, &painter, cell.widget);
  painter.save();
  painter.setFont(cell.font);
  // What is chosen has ink on soft, as the sheet says.
  painter.setPen(cell.state & QStyle::State_Selected ? style::ink()
                                                     : cell.palette.color(QPalette::Text));
  drawEven(painter, box, cell.displayAlignment, text);
  painter.restore();
  return true;
}

QSize CellDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  auto size = QStyledItemDelegate::sizeHint(option, index);
  auto cell = option;
  initStyleOption(&cell, index);
  if (!standsInColumn(cell)) return size;
  const QFontMetricsF letters(cell.font);
  const double more = evenWidth(cell.text, letters) - letters.horizontalAdvance(cell.text);
  size.rwidth() += std::max(0, static_cast<int>(std::ceil(more)));
  return size;
}

} // namespace gk::ui
