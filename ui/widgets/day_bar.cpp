#include "ui/widgets/day_bar.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>

#include <algorithm>
#include <numeric>

namespace gk::ui {

namespace {

constexpr int barHeight = 16;
constexpr int below = 8;
constexpr int between = 28;

QFont numbers(const QFont& font) {
  auto bold = font;
  bold.setPixelSize(style::px(20));
  bold.setWeight(QFont::Bold);
  return bold;
}

QFont lettersOf(const QFont& font) {
  auto plain = font;
  plain.setPixelSize(style::px(16));
  plain.setWeight(QFont::Medium);
  return plain;
}

QFont noteLetters(const QFont& font) {
  auto plain = font;
  plain.setPixelSize(style::px(15));
  return plain;
}

int signSide() {
  return style::px(14);
}

void paintPart(QPainter& painter, const QRectF& box, DayBar::Fill fill) {
  painter.setPen(QPen(style::edge(), 2));
  painter.setBrush(Qt::NoBrush);
  switch (fill) {
  case DayBar::Fill::strong:
    painter.setPen(QPen(style::strong(), 2));
    painter.setBrush(style::strong());
    break;
  case DayBar::Fill::cured:
    painter.setPen(QPen(style::ink(), 2));
    painter.setBrush(style::cured());
    break;
  case DayBar::Fill::dashed:
    painter.setPen(QPen(style::ink(), 2, Qt::DashLine));
    painter.setBrush(style::hand());
    break;
  case DayBar::Fill::open:
    painter.setBrush(style::card());
    break;
  case DayBar::Fill::sunk:
    painter.setBrush(style::sunk());
    break;
  }
  painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 4, 4);
}

} // namespace

DayBar::DayBar(QWidget* parent) : QLabel(parent) {
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setTextFormat(Qt::PlainText);
  setWordWrap(true);
  style::whenDressed(this, [this] { fitNote(); });
}

void DayBar::setParts(std::vector<Part> parts, const QString& text) {
  parts_ = std::move(parts);
  setText(text);
  fitNote();
}

void DayBar::say(const QString& words) {
  setNote({});
  setParts({}, words);
}

void DayBar::setNote(const QString& words) {
  note_ = words;
  fitNote();
}

void DayBar::fitNote() {
  setAccessibleName(drawsNote() ? text() + u". "_s + note_ : text());
  updateGeometry();
  update();
}

bool DayBar::isCondensed() {
  return lookNow().percent > 120;
}

bool DayBar::drawsNote() const {
  return isCondensed() && !note_.isEmpty();
}

int DayBar::barRoom() const {
  return isCondensed() ? 0 : barHeight + below;
}

std::vector<DayBar::Part> DayBar::counted() const {
  auto shown = parts_;
  if (isCondensed()) std::erase_if(shown, [](const Part& part) { return part.count == 0; });
  return shown.empty() ? parts_ : shown;
}

int DayBar::lineHeight() const {
  return QFontMetrics(numbers(font())).height() + 2;
}

int DayBar::widthOf(const Part& part) const {
  return signSide() + 8 + QFontMetrics(lettersOf(font())).horizontalAdvance(part.words) + 8 +
         QFontMetrics(numbers(font())).horizontalAdvance(QString::number(part.count)) + 2;
}

std::pair<std::vector<QPoint>, int> DayBar::places(int width) const {
  std::vector<QPoint> at;
  int x = 0;
  int line = 0;
  const auto place = [&](int wide) {
    if (x > 0 && x + wide > width) {
      x = 0;
      ++line;
    }
    at.emplace_back(x, barRoom() + line * lineHeight());
    x += wide + between;
  };
  for (const auto& part : counted())
    place(widthOf(part));
  if (drawsNote()) place(QFontMetrics(noteLetters(font())).horizontalAdvance(note_) + 2);
  return {at, line + 1};
}

int DayBar::heightForWidth(int width) const {
  if (parts_.empty()) return QLabel::heightForWidth(width);
  return barRoom() + places(width).second * lineHeight();
}

QSize DayBar::sizeHint() const {
  if (parts_.empty()) return QLabel::sizeHint();
  return {400, heightForWidth(width())};
}

QSize DayBar::minimumSizeHint() const {
  if (parts_.empty()) return QLabel::minimumSizeHint();
  return {200, heightForWidth(width())};
}

void DayBar::paintEvent(QPaintEvent* event) {
  if (parts_.empty()) return QLabel::paintEvent(event);
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  if (!isCondensed()) paintBar(painter);
  const auto at = places(width()).first;
  const auto shown = counted();
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const auto& part = shown[i];
    const int high = lineHeight();
    double left = at[i].x();
    paintPart(painter,
              {left, at[i].y() + (high - signSide()) / 2.0, double(signSide()), double(signSide())},
              part.fill);
    left += signSide() + 8;
    painter.setPen(style::ink());
    painter.setFont(lettersOf(font()));
    const int words = QFontMetrics(lettersOf(font())).horizontalAdvance(part.words);
    painter.drawText(QRectF(left, at[i].y(), words + 4, high), Qt::AlignLeft | Qt::AlignVCenter,
                     part.words);
    left += words + 8;
    painter.setFont(numbers(font()));
    painter.drawText(QRectF(left, at[i].y(), 120, high), Qt::AlignLeft | Qt::AlignVCenter,
                     QString::number(part.count));
  }
  if (!drawsNote()) return;
  painter.setPen(style::quiet());
  painter.setFont(noteLetters(font()));
  painter.drawText(QRect(at.back(), QSize(width() - at.back().x(), lineHeight())),
                   Qt::AlignLeft | Qt::AlignVCenter, note_);
}

void DayBar::paintBar(QPainter& painter) const {
  const int whole = std::accumulate(parts_.begin(), parts_.end(), 0,
                                    [](int sum, const Part& part) { return sum + part.count; });
  double x = 0;
  for (const auto& part : parts_) {
    if (part.count == 0) continue;
    const double wide = static_cast<double>(width()) * part.count / whole;
    paintPart(painter, {x, 0, std::max(wide - 3, 4.0), double(barHeight)}, part.fill);
    x += wide;
  }
}

} // namespace gk::ui
