#include "ui/widgets/tooth_marks.h"

#include "ui/support/style.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace gk::ui {

namespace {

// Marks are drawn about the origin, in a square from -half to half.
constexpr double half = 30;

QPen pen(double width, Qt::PenStyle line = Qt::SolidLine) {
  QPen made(style::ink(), width, line, Qt::RoundCap);
  made.setJoinStyle(Qt::MiterJoin);
  return made;
}

void paintBand(QPainter& painter, Mark mark) {
  const QRectF band(-half, -9, 2 * half, 18);
  painter.setPen(pen(3));
  painter.setBrush(Qt::NoBrush);
  if (mark == Mark::lost) painter.drawRect(band);
  painter.setPen(Qt::NoPen);
  if (mark == Mark::whole || mark == Mark::elsewhere) painter.fillRect(band, style::ink());
  if (mark == Mark::part) {
    painter.fillRect(band.adjusted(0, 0, -38, 0), style::ink());
    painter.fillRect(band.adjusted(38, 0, 0, 0), style::ink());
  }
  if (mark == Mark::elsewhere) {
    painter.setPen(QPen(style::ink(), 4));
    painter.setBrush(style::card());
    painter.drawEllipse(QPointF(0, 0), 15, 15);
  }
  if (mark == Mark::interim)
    for (int place = -2; place <= 2; ++place) {
      painter.setBrush(style::ink());
      painter.drawEllipse(QPointF(place * 13.0, 0), 4.5, 4.5);
    }
}

/// Into the fissure from above.
void paintArrowIn(QPainter& painter) {
  const QPointF tip(0, 14);
  painter.setPen(pen(6));
  painter.drawLine(QPointF(0, -20), tip);
  painter.drawLine(tip, tip + QPointF(-13, -13));
  painter.drawLine(tip, tip + QPointF(13, -13));
}

void paintDrop(QPainter& painter) {
  QPainterPath drop(QPointF(0, -26));
  drop.cubicTo(QPointF(32, 12), QPointF(14, 26), QPointF(0, 26));
  drop.cubicTo(QPointF(-14, 26), QPointF(-32, 12), QPointF(0, -26));
  painter.fillPath(drop, style::alarm());
}

void paintTick(QPainter& painter) {
  painter.setPen(pen(10));
  painter.drawPolyline(QPolygonF({QPointF(-19, 1), QPointF(-5, 17), QPointF(20, -16)}));
}

void paintWave(QPainter& painter) {
  QPainterPath wave(QPointF(-half, 0));
  const double step = half / 2;
  for (int i = 0; i < 4; ++i)
    wave.quadTo(QPointF(-half + step * (i + 0.5), i % 2 ? 16 : -16),
                QPointF(-half + step * (i + 1), 0));
  painter.strokePath(wave, pen(5));
}

/// The filled block: hatching drawn by hand, since a brush pattern vanishes when scaled.
void paintHatch(QPainter& painter) {
  const QRectF block(-18, -18, 36, 36);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(pen(3));
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

void paintMark(QPainter& painter, Mark mark) {
  switch (mark) {
  case Mark::sealEarly:
    paintArrowIn(painter);
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::ink());
    painter.drawEllipse(QPointF(21, 21), 7, 7);
    return;
  case Mark::seal:
    paintArrowIn(painter);
    return;
  case Mark::filled:
    paintHatch(painter);
    return;
  case Mark::partUp:
    paintWave(painter);
    return;
  case Mark::gone:
    painter.setPen(pen(5));
    painter.drawLine(QPointF(-half, -half), QPointF(half, half));
    painter.drawLine(QPointF(half, -half), QPointF(-half, half));
    return;
  case Mark::stopped:
    painter.fillRect(QRectF(-half, -8, 2 * half, 16), style::ink());
    painter.fillRect(QRectF(-half, -half, 8, 2 * half), style::ink());
    painter.fillRect(QRectF(half - 8, -half, 8, 2 * half), style::ink());
    return;
  case Mark::wet:
    paintDrop(painter);
    return;
  case Mark::done:
    paintTick(painter);
    return;
  case Mark::whole:
  case Mark::part:
  case Mark::lost:
  case Mark::elsewhere:
  case Mark::interim:
    paintBand(painter, mark);
    return;
  case Mark::sound: // a groove, as it is
    painter.setPen(pen(3));
    painter.drawLine(QPointF(0, -16), QPointF(0, 16));
    painter.drawLine(QPointF(-16, 0), QPointF(16, 0));
    return;
  case Mark::refer:
    painter.setPen(QPen(style::alarm(), 5));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(QPointF(0, 0), 16, 16);
    painter.setBrush(style::alarm());
    painter.drawEllipse(QPointF(0, 0), 6, 6);
    return;
  case Mark::crown:
    painter.setPen(pen(4));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(-22, -22, 44, 44));
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
                      toSeal       ? 5
                      : face.quiet ? 1
                                   : 2,
                      face.mark == Mark::notUp ? Qt::DashLine : Qt::SolidLine));
  if (face.mark == Mark::partUp) {
    paintHalfUp(painter, tile, face.tooth.isUpper());
    return;
  }
  painter.drawRect(tile);
  if (face.mark == Mark::crown) painter.drawRect(tile.adjusted(4, 4, -4, -4)); // clear of the words
}

void paintSymbol(QPainter& painter, const QRectF& square, Mark mark) {
  painter.save();
  painter.translate(square.center());
  const double scale = std::min(square.width(), square.height()) / (2 * half + 14);
  painter.scale(scale, scale);
  paintMark(painter, mark);
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
