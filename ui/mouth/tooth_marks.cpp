#include "ui/mouth/tooth_marks.h"

#include "ui/look/style.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace gk::ui {

namespace {

// Marks are drawn about the origin, in a square from -half to half.
constexpr double half = 30;
constexpr double tileCorner = 12;

/// What signs are drawn in: the ink, and what is under it.
struct Inks {
  QColor ink;
  QColor ground;
};

QPen pen(const QColor& ink, double width, Qt::PenStyle line = Qt::SolidLine) {
  QPen made(ink, width, line, Qt::RoundCap);
  made.setJoinStyle(Qt::RoundJoin);
  return made;
}

/// The groove of a molar from above, our own drawing, on a box of 96 about the origin.
const QPainterPath& groove() {
  static const QPainterPath drawn = [] {
    QPainterPath path(QPointF(17, 52));
    path.cubicTo(26, 44, 32, 54, 42, 49.5);
    path.cubicTo(52, 45, 62, 54, 79, 46);
    path.moveTo(36, 50);
    path.cubicTo(31, 42, 38, 33, 33, 22);
    path.moveTo(63, 49);
    path.cubicTo(59, 41, 67, 33, 62, 22);
    path.moveTo(49, 48);
    path.cubicTo(54, 57, 46, 65, 51, 76);
    return path.translated(-48, -48);
  }();
  return drawn;
}

constexpr double grooveScale = (2 * half + 14) / 96;

/// The white of a dry etched tooth, as dots about the groove.
void paintFrost(QPainter& painter, const Inks& inks) {
  painter.setPen(Qt::NoPen);
  painter.setBrush(inks.ink);
  constexpr double apart = 16;
  for (int row = -2; row <= 2; ++row)
    for (int column = -2; column <= 2; ++column)
      painter.drawEllipse(QPointF(column * apart + (row % 2 == 0 ? 0 : apart / 2) - 4, row * apart),
                          2.6, 2.6);
}

/// Sealant in the groove: wide and soft under a rim, or set with a thin core.
void paintSealant(QPainter& painter, const Inks& inks, bool isCured) {
  painter.strokePath(groove(), pen(inks.ink, isCured ? 15 : 21));
  painter.strokePath(groove(), pen(style::cured(), isCured ? 3.5 : 12));
}

void paintGroove(QPainter& painter, const Inks& inks, Mark mark) {
  painter.save();
  painter.scale(grooveScale, grooveScale);
  if (mark == Mark::frosty) paintFrost(painter, inks);
  const bool isBroken = mark == Mark::lost;
  const auto full = [&] { painter.strokePath(groove(), pen(inks.ink, 15)); };
  const auto hollow = [&] {
    auto line = pen(inks.ink, 15);
    if (isBroken) line.setDashPattern({0.55, 1.35});
    painter.strokePath(groove(), line);
    painter.strokePath(groove(), pen(inks.ground, 6.5));
  };
  if (mark == Mark::sound)
    painter.strokePath(groove(), pen(inks.ink, 4));
  else if (mark == Mark::whole || mark == Mark::elsewhere)
    full();
  else if (mark == Mark::placed || mark == Mark::cured)
    paintSealant(painter, inks, mark == Mark::cured);
  else if (mark == Mark::part) {
    hollow();
    painter.setClipRect(QRectF(-48, -48, 48, 96));
    full();
    painter.setClipping(false);
  } else {
    hollow();
  }
  if (mark == Mark::elsewhere) {
    painter.setPen(QPen(inks.ink, 6));
    painter.setBrush(inks.ground);
    painter.drawEllipse(QPointF(0, 2), 15, 15);
  }
  if (mark == Mark::sealEarly) {
    painter.setPen(QPen(inks.ground, 3));
    painter.setBrush(inks.ink);
    painter.drawEllipse(QPointF(31, 31), 10, 10);
  }
  painter.restore();
}

void paintDots(QPainter& painter, const Inks& inks) {
  painter.setPen(Qt::NoPen);
  painter.setBrush(inks.ink);
  for (int place = -2; place <= 2; ++place)
    painter.drawEllipse(QPointF(place * 13.0, 0), 5, 5);
}

void paintDrop(QPainter& painter) {
  QPainterPath drop(QPointF(0, -26));
  drop.cubicTo(QPointF(32, 12), QPointF(14, 26), QPointF(0, 26));
  drop.cubicTo(QPointF(-14, 26), QPointF(-32, 12), QPointF(0, -26));
  painter.fillPath(drop, style::alarm());
}

void paintTick(QPainter& painter, const Inks& inks) {
  painter.setPen(pen(inks.ink, 10));
  painter.drawPolyline(QPolygonF({QPointF(-19, 1), QPointF(-5, 17), QPointF(20, -16)}));
}

void paintWave(QPainter& painter, const Inks& inks) {
  QPainterPath wave(QPointF(-half, 0));
  const double step = half / 2;
  for (int i = 0; i < 4; ++i)
    wave.quadTo(QPointF(-half + step * (i + 0.5), i % 2 ? 16 : -16),
                QPointF(-half + step * (i + 1), 0));
  painter.strokePath(wave, pen(inks.ink, 5));
}

/// The filled block: hatching drawn by hand, since a brush pattern vanishes when scaled.
void paintHatch(QPainter& painter, const Inks& inks) {
  const QRectF block(-18, -18, 36, 36);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(pen(inks.ink, 3));
  painter.drawRect(block);
  painter.setClipRect(block);
  for (int offset = -36; offset <= 36; offset += 9)
    painter.drawLine(QPointF(offset - 18, 18), QPointF(offset + 18, -18));
}

/// Still to be looked at.
void paintQuestion(QPainter& painter) {
  QPainterPath hook(QPointF(-11, -10));
  hook.arcTo(QRectF(-11, -23, 22, 24), 180, -215);
  hook.quadTo(QPointF(0, 2), QPointF(0, 9));
  painter.strokePath(hook, QPen(style::edge(), 4));
  painter.setPen(Qt::NoPen);
  painter.setBrush(style::edge());
  painter.drawEllipse(QPointF(0, 20), 3.5, 3.5);
}

/// Half a tile stands out of the gum, on the side of the other jaw; the rest is dashed. In the pen
/// that is set.
void paintHalfUp(QPainter& painter, const QRectF& tile, bool isUpper) {
  const QPointF down(0, tile.height() / 2);
  const auto pen = painter.pen();
  const auto solid = QPen(pen.color(), pen.widthF() + 2);
  const auto dashed = QPen(pen.color(), pen.widthF(), Qt::DashLine);
  painter.setPen(isUpper ? dashed : solid);
  painter.drawPolyline(
      QPolygonF({tile.topLeft() + down, tile.topLeft(), tile.topRight(), tile.topRight() + down}));
  painter.setPen(isUpper ? solid : dashed);
  painter.drawPolyline(QPolygonF(
      {tile.topLeft() + down, tile.bottomLeft(), tile.bottomRight(), tile.topRight() + down}));
}

void paintMark(QPainter& painter, Mark mark, const Inks& inks) {
  switch (mark) {
  case Mark::sealEarly:
  case Mark::seal:
  case Mark::whole:
  case Mark::part:
  case Mark::lost:
  case Mark::elsewhere:
  case Mark::sound:
  case Mark::frosty:
  case Mark::placed:
  case Mark::cured:
    paintGroove(painter, inks, mark);
    return;
  case Mark::interim:
    paintDots(painter, inks);
    return;
  case Mark::filled:
    paintHatch(painter, inks);
    return;
  case Mark::partUp:
    paintWave(painter, inks);
    return;
  case Mark::gone:
    painter.setPen(pen(inks.ink, 5));
    painter.drawLine(QPointF(-half, -half), QPointF(half, half));
    painter.drawLine(QPointF(half, -half), QPointF(-half, half));
    return;
  case Mark::stopped:
    painter.fillRect(QRectF(-half, -8, 2 * half, 16), inks.ink);
    painter.fillRect(QRectF(-half, -half, 8, 2 * half), inks.ink);
    painter.fillRect(QRectF(half - 8, -half, 8, 2 * half), inks.ink);
    return;
  case Mark::wet:
    paintDrop(painter);
    return;
  case Mark::done:
    paintTick(painter, inks);
    return;
  case Mark::refer:
    painter.setPen(QPen(style::alarm(), 5));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(QPointF(0, 0), 16, 16);
    painter.setBrush(style::alarm());
    painter.drawEllipse(QPointF(0, 0), 6, 6);
    return;
  case Mark::crown:
    painter.setPen(pen(inks.ink, 4));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(-22, -22, 44, 44), 6, 6);
    return;
  case Mark::blank:
    paintQuestion(painter);
    return;
  case Mark::notUp:
    return;
  }
}

} // namespace

void paintOutline(QPainter& painter, const QRectF& tile, const TileFace& face) {
  painter.setBrush(Qt::NoBrush);
  if (face.mark == Mark::refer) {
    const double notch = std::min(26.0, tile.height() * 0.13); // clear of the words
    QPolygonF notched;
    notched << tile.topLeft() << tile.topRight() - QPointF(notch, 0)
            << tile.topRight() + QPointF(0, notch) << tile.bottomRight() << tile.bottomLeft();
    painter.setPen(QPen(style::alarm(), 5));
    painter.drawPolygon(notched);
    return;
  }
  const bool toSeal = face.mark == Mark::seal || face.mark == Mark::sealEarly || face.inHand;
  painter.setPen(QPen(toSeal ? style::ink() : style::edge(),
                      toSeal       ? 3
                      : face.quiet ? 1.5
                                   : 2,
                      face.mark == Mark::notUp ? Qt::DashLine : Qt::SolidLine));
  if (face.mark == Mark::partUp) {
    paintHalfUp(painter, tile, face.tooth.isUpper());
    return;
  }
  painter.drawRoundedRect(tile, tileCorner, tileCorner);
  if (face.mark == Mark::crown) // clear of the words
    painter.drawRoundedRect(tile.adjusted(4, 4, -4, -4), tileCorner - 4, tileCorner - 4);
}

void paintSymbol(QPainter& painter, const QRectF& square, Mark mark, bool isCovered) {
  painter.save();
  painter.translate(square.center());
  const double scale = std::min(square.width(), square.height()) / (2 * half + 14);
  painter.scale(scale, scale);
  paintMark(painter, mark,
            isCovered ? Inks{style::onCured(), style::cured()} : Inks{style::ink(), style::card()});
  painter.restore();
}

void paintCorners(QPainter& painter, const QRectF& box) {
  const auto frame = box.adjusted(3, 3, -3, -3);
  const double arm = std::min(frame.width(), frame.height()) * 0.3;
  QPen bold(style::alarm(), 7);
  bold.setCapStyle(Qt::FlatCap);
  bold.setJoinStyle(Qt::MiterJoin);
  painter.setPen(bold);
  const QPointF across(arm, 0);
  const QPointF down(0, arm);
  painter.drawPolyline(
      QPolygonF({frame.topLeft() + down, frame.topLeft(), frame.topLeft() + across}));
  painter.drawPolyline(
      QPolygonF({frame.topRight() + down, frame.topRight(), frame.topRight() - across}));
  painter.drawPolyline(
      QPolygonF({frame.bottomLeft() - down, frame.bottomLeft(), frame.bottomLeft() + across}));
  painter.drawPolyline(
      QPolygonF({frame.bottomRight() - down, frame.bottomRight(), frame.bottomRight() - across}));
}

} // namespace gk::ui
