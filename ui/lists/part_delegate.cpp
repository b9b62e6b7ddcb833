#include "ui/lists/part_delegate.h"

#include "ui/keys/icons.h"
#include "ui/lists/report_browser.h"
#include "ui/look/style.h"

#include <QPainter>

namespace gk::ui {

namespace {

bool isLarge() {
  return lookNow().percent > 120;
}

QFont partFont(const QFont& from, int pixels, QFont::Weight weight) {
  auto font = from;
  font.setPixelSize(style::px(pixels));
  font.setWeight(weight);
  return font;
}

void paintMark(QPainter& painter, const QRectF& box, PartState::Mark mark) {
  using Mark = PartState::Mark;
  if (mark == Mark::record) return;
  const auto inside = box.adjusted(box.width() * 0.18, box.height() * 0.18, -box.width() * 0.18,
                                   -box.height() * 0.18);
  if (mark == Mark::open) {
    painter.setPen(QPen(style::edge(), 2, Qt::DashLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(box.adjusted(1, 1, -1, -1));
    return;
  }
  if (mark == Mark::urgent) return paintIcon(painter, box, Icon::ask, style::ink());
  painter.setPen(Qt::NoPen);
  painter.setBrush(style::strong());
  painter.drawEllipse(box);
  paintIcon(painter, inside, Icon::tick, style::onStrong());
}

} // namespace

QSize PartDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const bool isRecord = index.data(mark).toInt() == static_cast<int>(PartState::Mark::record);
  const int line = QFontMetrics(partFont(option.font, 15, QFont::DemiBold)).height();
  return {100, isLarge() ? 2 * line + 10 : line + (isRecord ? 8 : 14)};
}

void PartDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const auto how = static_cast<PartState::Mark>(index.data(mark).toInt());
  const bool isRecord = how == PartState::Mark::record;
  const QRectF row(option.rect);
  if (option.state & QStyle::State_Selected) {
    painter->setPen(Qt::NoPen);
    painter->setBrush(style::soft());
    painter->drawRoundedRect(row, 6, 6);
    painter->setBrush(style::strong());
    painter->drawRoundedRect(QRectF(row.left(), row.top(), 5, row.height()), 2, 2);
  }
  const double side = style::px(20);
  paintMark(*painter, {row.left() + 12, row.center().y() - side / 2, side, side}, how);
  const double left = row.left() + 12 + side + 10;
  const QRectF words(left, row.top(), row.right() - left - 10, row.height());
  const auto name = index.data(PartDelegate::words).toString();
  const auto stateWords = index.data(state).toString();
  const auto paintState = [&](const QRectF& box, int flags) {
    painter->setFont(
        partFont(option.font, 14, how == PartState::Mark::urgent ? QFont::Bold : QFont::Normal));
    painter->setPen(how == PartState::Mark::urgent ? style::ink() : style::quiet());
    painter->drawText(box, flags, stateWords);
  };
  painter->setFont(partFont(option.font, 15, isRecord ? QFont::Normal : QFont::DemiBold));
  painter->setPen(style::ink());
  if (isLarge()) {
    painter->drawText(words.adjusted(0, 3, 0, -words.height() / 2),
                      Qt::AlignLeft | Qt::AlignVCenter, name);
    paintState(words.adjusted(0, words.height() / 2, 0, -3), Qt::AlignLeft | Qt::AlignVCenter);
  } else {
    painter->drawText(words, Qt::AlignLeft | Qt::AlignVCenter, name);
    paintState(words, Qt::AlignRight | Qt::AlignVCenter);
  }
  painter->restore();
}

} // namespace gk::ui
