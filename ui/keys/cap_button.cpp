#include "ui/keys/cap_button.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QStyleOptionButton>
#include <QStylePainter>

#include <algorithm>

namespace gk::ui {

namespace {

/// Between cap, sign and words.
int capGap() {
  return style::px(8);
}

} // namespace

CapButton::CapButton(QWidget* parent) : QPushButton(parent) {
  setAutoDefault(false);
}

void CapButton::setWords(const QString& key, const QString& words, Cap where) {
  if (key == key_ && words == words_ && where == where_) return;
  key_ = key;
  words_ = words;
  where_ = where;
  showText();
}

void CapButton::setSub(const QString& sub) {
  if (sub == sub_) return;
  sub_ = sub;
  showText();
}

void CapButton::setSign(std::optional<Icon> sign) {
  if (sign == sign_) return;
  sign_ = sign;
  updateGeometry();
  update();
}

void CapButton::setWraps(bool wraps) {
  wraps_ = wraps;
  updateGeometry();
}

void CapButton::showText() {
  auto all = sub_.isEmpty() ? words_ : words_ + u": "_s + sub_;
  if (!key_.isEmpty()) all += u"  "_s + key_;
  setText(all);
  updateGeometry();
  update();
}

QFont CapButton::capFont() const {
  auto cap = font();
  // Where the words are held small, the cap is too.
  cap.setPixelSize(
      std::max(font().pixelSize() * 5 / 6, std::min(style::px(13), font().pixelSize())));
  cap.setWeight(QFont::DemiBold);
  return cap;
}

QFont CapButton::subFont() const {
  auto sub = font();
  sub.setPixelSize(std::max(font().pixelSize() - 2, style::px(14)));
  sub.setWeight(QFont::Medium);
  return sub;
}

QSize CapButton::capSize() const {
  if (key_.isEmpty()) return {};
  const QFontMetrics metrics(capFont());
  const int high = metrics.height() + style::px(5);
  return {std::max(high, metrics.horizontalAdvance(key_) + style::px(12)), high};
}

int CapButton::signSize() const {
  return sign_ ? std::max(20, font().pixelSize() * 5 / 4) : 0;
}

QStringList CapButton::lines(int width) const {
  const auto metrics = fontMetrics();
  if (!wraps_ || metrics.horizontalAdvance(words_) <= width) return {words_};
  // Of all places to break, the one whose longer half is shortest.
  QStringList best{words_};
  int least = metrics.horizontalAdvance(words_);
  for (qsizetype at = words_.indexOf(u' '); at >= 0; at = words_.indexOf(u' ', at + 1)) {
    const QStringList halves{words_.left(at), words_.mid(at + 1)};
    const int wide =
        std::max(metrics.horizontalAdvance(halves[0]), metrics.horizontalAdvance(halves[1]));
    if (wide >= least) continue;
    least = wide;
    best = halves;
  }
  return best;
}

QSize CapButton::wordsSize(const QStringList& lines) const {
  const auto metrics = fontMetrics();
  QSize size(0, 0);
  for (const auto& line : lines)
    size = {std::max(size.width(), metrics.horizontalAdvance(line)),
            size.height() + metrics.height()};
  if (!sub_.isEmpty()) {
    const QFontMetrics below(subFont());
    size = {std::max(size.width(), below.horizontalAdvance(sub_)), size.height() + below.height()};
  }
  return size;
}

QSize CapButton::innerSize(const QStringList& lines) const {
  const auto cap = capSize();
  const auto words = wordsSize(lines);
  if (where_ == Cap::above && !key_.isEmpty())
    return {std::max(cap.width() + (sign_ ? signSize() + capGap() : 0), words.width()),
            cap.height() + style::px(3) + words.height()};
  const int beside =
      (key_.isEmpty() ? 0 : cap.width() + capGap()) + (sign_ ? signSize() + capGap() : 0);
  return {beside + words.width(), std::max({cap.height(), words.height(), signSize()})};
}

QSize CapButton::outerSize(const QSize& inner) const {
  QStyleOptionButton option;
  initStyleOption(&option);
  option.text.clear();
  return style()->sizeFromContents(QStyle::CT_PushButton, &option, inner + QSize(2, 0), this);
}

QSize CapButton::sizeHint() const {
  ensurePolished();
  return outerSize(innerSize(lines(wraps_ ? 0 : QWIDGETSIZE_MAX)));
}

int CapButton::wholeWidth() const {
  ensurePolished();
  return outerSize(innerSize({words_})).width();
}

int CapButton::heightIn(int width) const {
  ensurePolished();
  const int edges = outerSize({0, 0}).width();
  return outerSize(innerSize(lines(roomIn(width - edges)))).height();
}

QSize CapButton::minimumSizeHint() const {
  return sizeHint();
}

QRect CapButton::contents() const {
  QStyleOptionButton option;
  initStyleOption(&option);
  return style()->subElementRect(QStyle::SE_PushButtonContents, &option, this);
}

int CapButton::roomIn(int width) const {
  if (where_ == Cap::above || key_.isEmpty())
    return width - (sign_ && key_.isEmpty() ? signSize() + capGap() : 0);
  return width - capSize().width() - capGap() - (sign_ ? signSize() + capGap() : 0);
}

bool CapButton::hasRoom() const {
  const auto room = contents().size();
  const auto inner = innerSize(lines(roomIn(room.width())));
  return inner.width() <= room.width() && inner.height() <= room.height();
}

QColor CapButton::ink() const {
  if (!isEnabled()) return style::quiet();
  const auto look = property("look").toString();
  if (look == u"main"_s) return style::onStrong();
  if (look == u"alarm"_s) return style::alarm();
  if (look == u"filled"_s) return style::worn().onAlarm;
  return style::ink();
}

void CapButton::paintCap(QPainter& painter, const QRect& box, const QColor& ink) const {
  painter.setRenderHint(QPainter::Antialiasing);
  const auto look = property("look").toString();
  const bool isFilled =
      isEnabled() && look != u"main"_s && look != u"alarm"_s && look != u"filled"_s;
  const auto line = isFilled ? style::edge() : ink;
  const auto frame = QRectF(box).adjusted(0.5, 0.5, -0.5, -1.5);
  // Its thicker foot is what makes a cap of it.
  painter.setPen(QPen(line, 1));
  painter.setBrush(line);
  painter.drawRoundedRect(frame.adjusted(0, 4, 0, 1.5), 5, 5);
  const auto ground = !isEnabled()          ? style::ground()
                      : look == u"main"_s   ? style::strong()
                      : look == u"filled"_s ? style::alarm()
                      : isFilled            ? style::sunk()
                                            : style::card();
  painter.setBrush(ground);
  painter.drawRoundedRect(frame, 5, 5);
  painter.setFont(capFont());
  painter.setPen(ink);
  painter.drawText(frame, Qt::AlignCenter, key_);
}

void CapButton::paintWords(QPainter& painter, const QRect& box, const QColor& ink) const {
  const auto broken = lines(box.width());
  const int high = wordsSize(broken).height();
  int y = box.top() + (box.height() - high) / 2;
  painter.setPen(ink);
  painter.setFont(font());
  for (const auto& line : broken) {
    painter.drawText(QRect(box.left(), y, box.width(), fontMetrics().height()),
                     Qt::AlignLeft | Qt::AlignVCenter, line);
    y += fontMetrics().height();
  }
  if (sub_.isEmpty()) return;
  painter.setFont(subFont());
  painter.setPen(ink == style::ink() ? style::quiet() : ink);
  painter.drawText(QRect(box.left(), y, box.width(), QFontMetrics(subFont()).height()),
                   Qt::AlignLeft | Qt::AlignVCenter, sub_);
}

void CapButton::paintEvent(QPaintEvent*) {
  QStylePainter painter(this);
  QStyleOptionButton option;
  initStyleOption(&option);
  option.text.clear();
  painter.drawControl(QStyle::CE_PushButton, option);
  painter.setRenderHint(QPainter::Antialiasing);
  const auto ink = this->ink();
  auto inner = contents();
  const auto cap = capSize();
  if (where_ == Cap::above && !key_.isEmpty()) {
    const auto broken = lines(inner.width());
    const int high = cap.height() + style::px(3) + wordsSize(broken).height();
    const int top = inner.top() + (inner.height() - high) / 2;
    paintCap(painter, {QPoint(inner.left(), top), cap}, ink);
    if (sign_)
      paintIcon(painter, QRectF(inner.right() - signSize(), top, signSize(), signSize()), *sign_,
                ink);
    paintWords(painter,
               {inner.left(), top + cap.height() + style::px(3), inner.width(),
                wordsSize(broken).height()},
               ink);
    return;
  }
  const bool isAfter = where_ == Cap::after;
  if (sign_) {
    paintIcon(painter,
              QRectF(inner.left(), inner.top() + (inner.height() - signSize()) / 2.0, signSize(),
                     signSize()),
              *sign_, ink);
    inner.setLeft(inner.left() + signSize() + capGap());
  }
  if (!key_.isEmpty()) {
    const int y = inner.top() + (inner.height() - cap.height()) / 2;
    if (isAfter) {
      paintCap(painter, {QPoint(inner.right() - cap.width() + 1, y), cap}, ink);
      inner.setRight(inner.right() - cap.width() - capGap());
    } else {
      paintCap(painter, {QPoint(inner.left(), y), cap}, ink);
      inner.setLeft(inner.left() + cap.width() + capGap());
    }
  }
  paintWords(painter, inner, ink);
}

} // namespace gk::ui
