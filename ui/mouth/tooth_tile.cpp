#include "ui/mouth/tooth_tile.h"

#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/mouth/surface_target.h"
#include "ui/mouth/tooth_marks.h"
#include "ui/support/text.h"

#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace gk::ui {

using dentition::Surface;

namespace {

constexpr int margin = 12;
/// Room of the lines above and below the surfaces, at the usual size of letters.
constexpr int titleRoom = 58;
constexpr int wordRoom = 66;
/// The same in a small tile; the title takes two lines where there is height.
constexpr int smallRoom = 34;
constexpr int smallTitle = 58;
/// What words need beside the surfaces.
constexpr int wordsBeside = 110;
/// Under this an arm's length hides a word; only a tile squeezed by large letters comes near it.
constexpr int least = 13;

QString cornerWords(const dentition::Tooth& tooth) {
  return (tooth.isUpper() ? u"Upper "_s : u"Lower "_s) + (tooth.isRight() ? u"right"_s : u"left"_s);
}

/// "1st", "2nd", or what else the tooth is.
QString placeWords(const dentition::Tooth& tooth) {
  if (tooth.isFirstPermanentMolar()) return u"1st"_s;
  if (tooth.isSecondPermanentMolar()) return u"2nd"_s;
  return (tooth.isPrimary() ? u"primary "_s : u"place "_s) + QString::number(tooth.position());
}

/// As large as wished, or as the width lets it be; never so small that an arm's length hides it.
void setFitting(QPainter& painter, const QString& words, int wished, int smallest, bool bold,
                double width) {
  auto font = painter.font();
  font.setBold(bold);
  for (int size = wished; size >= smallest; --size) {
    font.setPixelSize(size);
    if (size == smallest || QFontMetricsF(font).horizontalAdvance(words) <= width) break;
  }
  painter.setFont(font);
}

/// The number pad's key of the corner as a cap; a second molar's is pressed twice. Only where the
/// room beside the words has it.
void paintCorner(QPainter& painter, const QRectF& room, const dentition::Tooth& tooth) {
  const bool isFirst = tooth.isFirstPermanentMolar();
  if (!isFirst && !tooth.isSecondPermanentMolar()) return;
  const auto key =
      tooth.isUpper() ? (tooth.isRight() ? u"7"_s : u"9"_s) : (tooth.isRight() ? u"1"_s : u"3"_s);
  constexpr double side = 17;
  constexpr double apart = 2;
  const int presses = isFirst ? 1 : 2;
  if (presses * (side + apart) - apart > room.width()) return;
  painter.save();
  auto font = painter.font();
  font.setPixelSize(13);
  font.setWeight(QFont::DemiBold);
  painter.setFont(font);
  for (int i = 0; i < presses; ++i) {
    const QRectF cap(room.left() + i * (side + apart), room.center().y() - side / 2, side, side);
    painter.setPen(QPen(style::edge(), 1));
    painter.setBrush(style::sunk());
    painter.drawRoundedRect(cap, 4, 4);
    painter.setPen(style::ink());
    painter.drawText(cap, Qt::AlignCenter, key);
  }
  painter.restore();
}

void write(QPainter& painter, const QRectF& box, const QString& words, int wished, bool bold,
           int flags = int{Qt::AlignVCenter} | int{Qt::AlignLeft}) {
  const int most = std::min(style::px(wished), static_cast<int>(box.height() * 0.86));
  setFitting(painter, words, std::max(most, least), least, bold, box.width());
  painter.drawText(box, flags, words);
}

} // namespace

ToothTile::ToothTile(QWidget* parent) : QWidget(parent) {}

ToothTile::Shape ToothTile::shape() const {
  if (height() >= titleRoom + style::touch() + wordRoom) return Shape::tall;
  return width() < 2 * style::touch() + style::touchGap() + wordsBeside ? Shape::small : Shape::low;
}

int ToothTile::smallTitleRoom() const {
  return height() >= smallTitle + style::touch() + smallRoom ? smallTitle : smallRoom;
}

QSize ToothTile::minimumSizeHint() const {
  return {2 * style::touch() + style::touchGap() + 2 * margin, 2 * smallRoom + style::touch()};
}

void ToothTile::setFace(const TileFace& face, bool selected) {
  face_ = face;
  selected_ = selected;
  setAccessibleName(face.spoken);
  setObjectName(u"tile%1"_s.arg(face.tooth.iso()));
  const auto shown = dentition::usualSurfaces(face.tooth).with(face.chosen).with(face.covered);
  for (const auto surface : shown.values()) {
    auto*& target = targets_[surface];
    if (!target) {
      target = new SurfaceTarget(surface, this);
      connect(target, &SurfaceTarget::pressed, this,
              [this, surface] { Q_EMIT surfacePressed(surface); });
    }
    target->setFace(face);
  }
  for (auto& [surface, target] : targets_)
    target->setVisible(shown.has(surface));
  placeTargets();
  update();
}

void ToothTile::mousePressEvent(QMouseEvent* event) {
  event->accept();
  Q_EMIT pressed();
}

void ToothTile::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeTargets();
}

/// The square and at most one tab beside it; what is left of the width is the square's.
void ToothTile::placeTargets() {
  if (!face_) return;
  const int touch = style::touch();
  const int gap = style::touchGap();
  const int wide = width() - 2 * margin;
  const bool isLow = shape() == Shape::low;
  const int above = isLow ? margin : shape() == Shape::tall ? titleRoom : smallTitleRoom();
  const int below = isLow ? margin : shape() == Shape::tall ? wordRoom : smallRoom;
  const int high = height() - above - below;
  const int tabs = static_cast<int>(targets_.size()) - 1;
  const int beside = tabs > 0 ? touch + gap : 0;
  const int square = std::clamp(std::min(wide - tabs * beside, high), touch, 150);
  const int room = square + tabs * beside;
  const int left = isLow ? width() - margin - room : (width() - room) / 2;
  const int top = above + (high - square) / 2;
  const bool tabIsLeft = tabs > 0 && std::ranges::any_of(targets_, [&](const auto& one) {
                           return tabSide(face_->tooth, one.first) == TabSide::left;
                         });
  int x = tabIsLeft ? left + beside : left;
  for (auto& [surface, target] : targets_) {
    const auto side = tabSide(face_->tooth, surface);
    if (!side)
      target->setGeometry(x, top, square, square);
    else
      target->setGeometry(*side == TabSide::left ? x - beside : x + square + gap,
                          top + (square - std::max(touch, square * 6 / 10)) / 2, touch,
                          std::max(touch, square * 6 / 10));
  }
}

void ToothTile::paintEvent(QPaintEvent*) {
  if (!face_) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(font());
  painter.fillRect(rect(), style::ground());
  const QRectF tile = QRectF(rect()).adjusted(5, 5, -5, -5);
  if (selected_) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::strong());
    painter.drawRoundedRect(rect(), 14, 14);
  }
  painter.setPen(Qt::NoPen);
  painter.setBrush(face_->inHand                ? style::hand()
                   : face_->quiet && !selected_ ? style::ground()
                                                : style::card());
  painter.drawRoundedRect(tile, 10, 10);
  paintOutline(painter, tile, *face_);
  // A neck from each tab to the tooth it belongs to.
  const auto square = targets_.find(Surface::occlusal);
  for (const auto& [surface, target] : targets_) {
    const auto side = tabSide(face_->tooth, surface);
    if (!side || square == targets_.end() || target->isHidden()) continue;
    painter.setPen(QPen(style::edge(), 2, face_->quiet ? Qt::DashLine : Qt::SolidLine));
    painter.drawLine(target->geometry().center(), square->second->geometry().center());
  }
  switch (shape()) {
  case Shape::tall:
    paintTall(painter);
    return;
  case Shape::small:
    paintSmall(painter);
    return;
  case Shape::low:
    paintLow(painter);
    return;
  }
}

void ToothTile::paintTall(QPainter& painter) {
  const auto& face = *face_;
  const QRectF inner = QRectF(rect()).adjusted(margin, 8, -margin, -8);
  painter.setPen(face.quiet ? style::quiet() : style::ink());
  write(painter, {inner.left(), inner.top(), inner.width(), 28}, cornerWords(face.tooth), 24, true);
  const QRectF second(inner.left(), inner.top() + 27, inner.width(), 28);
  write(painter, second, placeWords(face.tooth), 24, true);
  const auto placeEnd = painter.fontMetrics().horizontalAdvance(placeWords(face.tooth)) + 6;
  const auto number = u"#"_s + face.number;
  write(painter, second, number, 20, false, int{Qt::AlignVCenter} | int{Qt::AlignRight});
  paintCorner(painter,
              second.adjusted(placeEnd, 0, -painter.fontMetrics().horizontalAdvance(number) - 2, 0),
              face.tooth);
  const double below = height() - wordRoom;
  // "SEAL (non-cavitated)" is one large word, and what it is of below it with the surfaces.
  const auto word = face.word.section(u" ("_s, 0, 0);
  auto detail = face.word.section(u" ("_s, 1, 1).remove(u')');
  write(painter, {inner.left(), below, inner.width(), 34}, word, face.quiet ? 24 : 26, !face.quiet);
  QRectF strip(inner.left(), below + 34, inner.width(), 24);
  if (!face.due.isEmpty()) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::strong());
    painter.drawRoundedRect(strip.adjusted(-4, 0, 4, 0), 5, 5);
    painter.setPen(style::onStrong());
    write(painter, strip, face.strip, 20, true);
    return;
  }
  if (!detail.isEmpty() && !face.strip.isEmpty())
    detail += u", "_s + face.strip.section(u' ', -1); // the surfaces
  write(painter, strip, detail.isEmpty() ? face.strip : detail, 18, false);
}

void ToothTile::paintSmall(QPainter& painter) {
  const auto& face = *face_;
  const QRectF inner = QRectF(rect()).adjusted(margin - 2, 6, 2 - margin, -6);
  painter.setPen(face.quiet ? style::quiet() : style::ink());
  const bool two = smallTitleRoom() == smallTitle;
  const double line = two ? (smallTitle - 4) / 2.0 : smallRoom - 6;
  write(painter, {inner.left(), inner.top(), inner.width(), line},
        two ? cornerWords(face.tooth) : cornerWords(face.tooth) + u' ' + placeWords(face.tooth), 24,
        !face.quiet);
  if (two)
    write(painter, {inner.left(), inner.top() + line, inner.width(), line},
          placeWords(face.tooth) + u"  #"_s + face.number, 24, !face.quiet);
  const QRectF word(inner.left(), inner.bottom() - smallRoom + 6, inner.width(), smallRoom - 6);
  if (!face.due.isEmpty()) {
    painter.fillRect(word, style::strong());
    painter.setPen(style::onStrong());
  }
  write(painter, word, face.due.isEmpty() ? face.word : face.strip, 26, !face.quiet);
}

void ToothTile::paintLow(QPainter& painter) {
  const auto& face = *face_;
  int surfaces = width();
  for (const auto& [surface, target] : targets_)
    surfaces = std::min(surfaces, target->x());
  const QRectF inner(margin, 9, surfaces - margin - 6, height() - 18);
  painter.setPen(face.quiet ? style::quiet() : style::ink());
  const double line = inner.height() / 4;
  const QString lines[]{cornerWords(face.tooth), placeWords(face.tooth) + u"  #"_s + face.number,
                        face.word, face.strip};
  for (int i = 0; i < 4; ++i)
    write(painter, {inner.left(), inner.top() + i * line, inner.width(), line}, lines[i],
          i == 3 ? 18 : 24, i != 3);
}

} // namespace gk::ui
