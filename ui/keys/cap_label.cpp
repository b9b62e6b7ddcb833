#include "ui/keys/cap_label.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr int betweenCapAndWords = 6;

} // namespace

CapLabel::CapLabel(const QString& words, QWidget* parent) : QLabel(words, parent) {}

QString CapLabel::words() const {
  return text().section(u" Alt+"_s, 0, 0);
}

QString CapLabel::key() const {
  return u"Alt+"_s + text().section(u" Alt+"_s, 1).remove(u'&');
}

QFont CapLabel::capFont() const {
  auto cap = font();
  cap.setPixelSize(style::px(13));
  cap.setWeight(QFont::DemiBold);
  return cap;
}

QSize CapLabel::capSize() const {
  const QFontMetrics metrics(capFont());
  return {metrics.horizontalAdvance(key()) + style::px(12), metrics.height() + style::px(5)};
}

QSize CapLabel::sizeHint() const {
  ensurePolished();
  const auto cap = capSize();
  return {cap.width() + betweenCapAndWords + fontMetrics().horizontalAdvance(words()),
          std::max(cap.height(), fontMetrics().height())};
}

void CapLabel::paintEvent(QPaintEvent* /*event*/) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const auto size = capSize();
  const auto frame =
      QRectF(QPointF(0, (height() - size.height()) / 2.0), size).adjusted(0.5, 0.5, -0.5, -1.5);
  const auto line = isEnabled() ? style::edge() : style::quiet();
  // As on a button: its thicker foot is what makes a cap of it.
  painter.setPen(QPen(line, 1));
  painter.setBrush(line);
  painter.drawRoundedRect(frame.adjusted(0, 4, 0, 1.5), 5, 5);
  painter.setBrush(isEnabled() ? style::sunk() : style::ground());
  painter.drawRoundedRect(frame, 5, 5);
  painter.setFont(capFont());
  painter.setPen(isEnabled() ? style::ink() : style::quiet());
  painter.drawText(frame, Qt::AlignCenter, key());
  painter.setFont(font());
  painter.drawText(rect().adjusted(size.width() + betweenCapAndWords, 0, 0, 0),
                   Qt::AlignLeft | Qt::AlignVCenter, words());
}

} // namespace gk::ui
