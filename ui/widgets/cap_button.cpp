#include "ui/widgets/cap_button.h"

#include "ui/support/style.h"
#include "ui/support/text.h"

#include <QStyleOptionButton>
#include <QStylePainter>

#include <algorithm>

namespace gk::ui {

namespace {

/// Between cap and words.
int capGap() {
  return style::px(8);
}

QFont capFont(const QFont& font) {
  auto cap = font;
  cap.setPixelSize(std::max(font.pixelSize() * 5 / 6, style::px(13)));
  cap.setWeight(QFont::DemiBold);
  return cap;
}

} // namespace

CapButton::CapButton(QWidget* parent) : QPushButton(parent) {}

void CapButton::setWords(const QString& key, const QString& words, Cap where) {
  key_ = key;
  words_ = words;
  where_ = where;
  setText(key.isEmpty() ? words : words + (where == Cap::above ? u"\n"_s : u"  "_s) + key);
  updateGeometry();
  update();
}

QSize CapButton::capSize() const {
  if (key_.isEmpty()) return {};
  const QFontMetrics metrics(capFont(font()));
  const int high = metrics.height() + style::px(4);
  return {std::max(high, metrics.horizontalAdvance(key_) + style::px(12)), high};
}

QSize CapButton::wordsSize() const {
  return fontMetrics().size(Qt::TextShowMnemonic, words_);
}

QSize CapButton::sizeHint() const {
  const auto cap = capSize();
  const auto words = wordsSize();
  const bool isAbove = where_ == Cap::above && !key_.isEmpty();
  const int gap = key_.isEmpty() ? 0 : capGap();
  const QSize inner =
      isAbove ? QSize(std::max(cap.width(), words.width()),
                      cap.height() + style::px(2) + words.height())
              : QSize(cap.width() + gap + words.width(), std::max(cap.height(), words.height()));
  QStyleOptionButton option;
  initStyleOption(&option);
  option.text.clear();
  return style()->sizeFromContents(QStyle::CT_PushButton, &option, inner, this);
}

QSize CapButton::minimumSizeHint() const {
  return sizeHint();
}

void CapButton::paintCap(QPainter& painter, const QRect& box, const QColor& ink) const {
  painter.setRenderHint(QPainter::Antialiasing);
  const bool isFilled = property("look").toString() != u"main"_s && isEnabled();
  const auto frame = QRectF(box).adjusted(1, 1, -1, -1);
  painter.setPen(QPen(isFilled ? style::edge() : ink, 1));
  painter.setBrush(isFilled ? QBrush(style::sunk()) : QBrush(Qt::NoBrush));
  painter.drawRoundedRect(frame, 5, 5);
  // Its thicker foot is what makes a cap of it.
  painter.fillRect(QRectF(frame.left() + 4, frame.bottom() - 1.5, frame.width() - 8, 2.5),
                   isFilled ? style::edge() : ink);
  painter.setFont(capFont(font()));
  painter.setPen(ink);
  painter.drawText(box, Qt::AlignCenter, key_);
}

void CapButton::paintEvent(QPaintEvent*) {
  QStylePainter painter(this);
  QStyleOptionButton option;
  initStyleOption(&option);
  option.text.clear();
  painter.drawControl(QStyle::CE_PushButton, option);
  const auto look = property("look").toString();
  const auto ink = !isEnabled()        ? style::quiet()
                   : look == u"main"_s ? style::onStrong()
                                       : style::ink();
  auto inner = style()->subElementRect(QStyle::SE_PushButtonContents, &option, this);
  const auto cap = capSize();
  painter.setFont(font());
  if (where_ == Cap::above && !key_.isEmpty()) {
    const int high = cap.height() + style::px(2) + wordsSize().height();
    const int top = inner.top() + (inner.height() - high) / 2;
    paintCap(painter, {QPoint(inner.left(), top), cap}, ink);
    painter.setFont(font());
    painter.setPen(ink);
    painter.drawText(
        QRect(inner.left(), top + cap.height() + style::px(2), inner.width(), wordsSize().height()),
        Qt::AlignLeft | Qt::AlignVCenter, words_);
    return;
  }
  if (!key_.isEmpty()) {
    paintCap(painter,
             {QPoint(inner.left(), inner.top() + (inner.height() - cap.height()) / 2), cap}, ink);
    inner.setLeft(inner.left() + cap.width() + capGap());
    painter.setFont(font());
  }
  painter.setPen(ink);
  painter.drawText(inner, Qt::AlignLeft | Qt::AlignVCenter, words_);
}

} // namespace gk::ui
