#include "ui/desk/area_delegate.h"

#include "ui/keys/icons.h"
#include "ui/look/style.h"

#include <QPainter>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr int rowSide = 10; ///< left and right of all, in pixels
constexpr int signSide = 20;

QFont areaFont(const QFont& from, int pixels, QFont::Weight weight) {
  auto font = from;
  font.setPixelSize(style::px(pixels));
  font.setWeight(weight);
  return font;
}

/// A shape for each, since a color alone says nothing.
void paintSign(QPainter& painter, const QRectF& box, AreaDelegate::Sign sign) {
  using Sign = AreaDelegate::Sign;
  if (sign == Sign::none) return;
  if (sign == Sign::ask) return paintIcon(painter, box, Icon::ask, style::ink());
  if (sign == Sign::missing) {
    painter.setPen(QPen(style::edge(), 2, Qt::DashLine));
    painter.setBrush(Qt::NoBrush);
    return painter.drawEllipse(box.adjusted(1, 1, -1, -1));
  }
  painter.setPen(Qt::NoPen);
  painter.setBrush(style::strong());
  painter.drawEllipse(box);
  const double in = box.width() * 0.18;
  paintIcon(painter, box.adjusted(in, in, -in, -in), Icon::tick, style::onStrong());
}

} // namespace

QSize AreaDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const QFontMetrics first(areaFont(option.font, 15, QFont::DemiBold));
  const QFontMetrics second(areaFont(option.font, 14, QFont::Normal));
  const bool isLine = index.data(state).toString().isEmpty();
  return {100, first.height() + (isLine ? 12 : second.height() + 6)};
}

void AreaDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const QRectF row(option.rect);
  if (option.state & QStyle::State_Selected) {
    painter->setPen(Qt::NoPen);
    painter->setBrush(style::soft());
    painter->drawRoundedRect(row, 6, 6);
    painter->setBrush(style::strong());
    painter->drawRoundedRect(QRectF(row.left(), row.top(), 5, row.height()), 2, 2);
  }
  const double side = style::px(signSide);
  paintSign(*painter, {row.left() + rowSide, row.center().y() - side / 2, side, side},
            static_cast<Sign>(index.data(sign).toInt()));
  const auto keyFont = areaFont(option.font, 13, QFont::DemiBold);
  const QFontMetricsF keys(keyFont);
  const auto keyWords = index.data(key).toString();
  const QSizeF size(keys.horizontalAdvance(keyWords) + style::px(10), keys.height() + 3);
  const QRectF cap(
      QPointF(row.right() - rowSide - size.width(), row.center().y() - size.height() / 2), size);
  painter->setPen(QPen(style::edge(), 1));
  painter->setBrush(style::sunk());
  painter->drawRoundedRect(cap, 5, 5);
  painter->setFont(keyFont);
  painter->setPen(style::ink());
  painter->drawText(cap, Qt::AlignCenter, keyWords);

  const double left = row.left() + rowSide + side + 10;
  const QRectF words(left, row.top() + 3, cap.left() - left - 8, row.height() - 6);
  const auto second = index.data(state).toString();
  const auto line = [&](const QRectF& box, int pixels, QFont::Weight weight, const QColor& ink,
                        const QString& text) {
    // A long title or state gives way a little before it is cut.
    auto font = areaFont(option.font, pixels, weight);
    for (int high = font.pixelSize();
         high > 12 && QFontMetricsF(font).horizontalAdvance(text) > box.width(); --high)
      font.setPixelSize(high);
    painter->setFont(font);
    painter->setPen(ink);
    painter->drawText(box, Qt::AlignLeft | Qt::AlignVCenter,
                      QFontMetricsF(font).elidedText(text, Qt::ElideRight, box.width()));
  };
  const auto titleBox =
      second.isEmpty() ? words : words.adjusted(0, 0, 0, -words.height() * 14 / 29.0);
  line(titleBox, 15, QFont::DemiBold, style::ink(), index.data(title).toString());
  if (!second.isEmpty())
    line(words.adjusted(0, words.height() * 15 / 29.0, 0, 0), 14, QFont::Normal, style::quiet(),
         second);
  painter->restore();
}

} // namespace gk::ui
