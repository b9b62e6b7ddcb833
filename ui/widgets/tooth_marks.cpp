#include "ui/widgets/tooth_marks.h"

#include "ui/support/style.h"

#include <QPainter>
#include <QPainterPath>

namespace gk::ui {

using dentition::Surface;

namespace {

void paintBand(QPainter& painter, const QRectF& square, Mark mark) {
  const QRectF band(square.left(), square.center().y() - 7, square.width(), 14);
  const QSizeF end(band.width() * 0.35, band.height());
  if (mark == Mark::whole || mark == Mark::elsewhere) painter.fillRect(band, style::strong());
  if (mark == Mark::part) {
    painter.fillRect(QRectF(band.topLeft(), end), style::strong());
    painter.fillRect(QRectF(band.topRight() - QPointF(end.width(), 0), end), style::strong());
  }
  if (mark == Mark::lost) {
    painter.setPen(QPen(style::strong(), 2));
    painter.drawRect(band);
  }
  if (mark == Mark::elsewhere) {
    painter.setPen(QPen(style::paper(), 3));
    painter.drawEllipse(band.center(), 5, 5);
  }
  if (mark == Mark::interim) {
    painter.setPen(QPen(style::strong(), 8, Qt::DotLine));
    painter.drawLine(QPointF(band.left(), band.center().y()),
                     QPointF(band.right(), band.center().y()));
  }
}

void paintArrowIn(QPainter& painter, const QRectF& square) {
  const QPointF tip = square.center() + QPointF(0, 8);
  painter.setPen(QPen(style::ink(), 4, Qt::SolidLine, Qt::RoundCap));
  painter.drawLine(QPointF(tip.x(), square.top() + 4), tip);
  painter.drawLine(tip, tip + QPointF(-9, -9));
  painter.drawLine(tip, tip + QPointF(9, -9));
}

void paintDrop(QPainter& painter, const QRectF& square) {
  const auto middle = square.center();
  QPainterPath drop(middle + QPointF(0, -20));
  drop.cubicTo(middle + QPointF(26, 16), middle + QPointF(8, 22), middle + QPointF(0, 22));
  drop.cubicTo(middle + QPointF(-8, 22), middle + QPointF(-26, 16), middle + QPointF(0, -20));
  painter.fillPath(drop, style::alarm());
}

void paintTick(QPainter& painter, const QRectF& square) {
  QPen pen(style::strong(), 7, Qt::SolidLine, Qt::RoundCap);
  painter.setPen(pen);
  const auto middle = square.center();
  painter.drawLine(middle + QPointF(-16, 0), middle + QPointF(-4, 13));
  painter.drawLine(middle + QPointF(-4, 13), middle + QPointF(17, -14));
}

void paintWave(QPainter& painter, const QRectF& square) {
  QPainterPath wave(QPointF(square.left(), square.center().y()));
  const double step = square.width() / 4;
  for (int i = 0; i < 4; ++i)
    wave.quadTo(QPointF(square.left() + step * (i + 0.5), square.center().y() + (i % 2 ? 9 : -9)),
                QPointF(square.left() + step * (i + 1), square.center().y()));
  painter.strokePath(wave, QPen(style::ink(), 3));
}

void paintSymbol(QPainter& painter, const QRectF& square, Mark mark) {
  switch (mark) {
  case Mark::sealEarly:
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::ink());
    painter.drawEllipse(square.center() + QPointF(14, 14), 5, 5);
    painter.setBrush(Qt::NoBrush);
    paintArrowIn(painter, square);
    return;
  case Mark::seal:
    paintArrowIn(painter, square);
    return;
  case Mark::filled:
    painter.fillRect(square.adjusted(12, 12, -12, -12), QBrush(style::ink(), Qt::BDiagPattern));
    return;
  case Mark::partUp:
    paintWave(painter, square);
    return;
  case Mark::gone:
    painter.setPen(QPen(style::ink(), 4));
    painter.drawLine(square.topLeft(), square.bottomRight());
    painter.drawLine(square.topRight(), square.bottomLeft());
    return;
  case Mark::stopped:
    painter.fillRect(QRectF(square.left() - 4, square.center().y() - 6, square.width() + 8, 12),
                     style::ink());
    return;
  case Mark::wet:
    paintDrop(painter, square);
    return;
  case Mark::done:
    paintTick(painter, square);
    return;
  case Mark::whole:
  case Mark::part:
  case Mark::lost:
  case Mark::elsewhere:
  case Mark::interim:
    paintBand(painter, square, mark);
    return;
  case Mark::blank:
  case Mark::notUp:
  case Mark::sound:
  case Mark::refer:
  case Mark::crown:
    return;
  }
}

} // namespace

void paintOutline(QPainter& painter, const QRectF& tile, Mark mark) {
  painter.setBrush(Qt::NoBrush);
  if (mark == Mark::refer) {
    QPolygonF notched;
    notched << tile.topLeft() << tile.topRight() - QPointF(34, 0)
            << tile.topRight() + QPointF(0, 34) << tile.bottomRight() << tile.bottomLeft();
    painter.setPen(QPen(style::alarm(), 4));
    painter.drawPolygon(notched);
    return;
  }
  const bool toSeal = mark == Mark::seal || mark == Mark::sealEarly;
  painter.setPen(QPen(toSeal ? style::ink() : style::edge(), toSeal ? 5 : 2,
                      mark == Mark::notUp ? Qt::DashLine : Qt::SolidLine));
  painter.drawRect(tile);
  if (mark == Mark::crown) painter.drawRect(tile.adjusted(5, 5, -5, -5));
}

void paintSurfaces(QPainter& painter, const QRectF& area, const TileFace& face) {
  constexpr double tab = 15;
  const QRectF square = area.adjusted(tab, tab, -tab, -tab);
  const bool cheekIsUp = face.tooth.isUpper();
  const auto edge = [&](Surface surface, const QRectF& box) {
    if (face.covered.has(surface)) painter.fillRect(box, style::cured());
    painter.setPen(QPen(style::ink(), face.chosen.has(surface) ? 4 : 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
  };
  const auto tabOn = [&](bool up) {
    const double width = square.width() * 0.5;
    const double top = up ? area.top() : square.bottom();
    return QRectF(square.center().x() - width / 2, top, width, tab);
  };
  edge(Surface::occlusal, square);
  const auto shown = dentition::usualSurfaces(face.tooth).with(face.chosen).with(face.covered);
  if (shown.has(Surface::buccalPit)) edge(Surface::buccalPit, tabOn(cheekIsUp));
  if (shown.has(Surface::lingualGroove)) edge(Surface::lingualGroove, tabOn(!cheekIsUp));
  painter.save();
  paintSymbol(painter, square, face.mark);
  painter.restore();
}

} // namespace gk::ui
