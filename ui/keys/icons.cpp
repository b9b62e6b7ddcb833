#include "ui/keys/icons.h"

#include "base/contract.h"
#include "ui/support/text.h"

#include <QColor>
#include <QPainter>
#include <QPainterPath>
#include <QSvgRenderer>

namespace gk::ui {

namespace {

/// Our own drawings, on a grid of 24, lines of 2 with round ends.
const char* drawingOf(Icon icon) {
  switch (icon) {
  case Icon::board:
    return "<path d='M4 6h3M4 12h3M4 18h3M10 6h10M10 12h10M10 18h10'/>";
  case Icon::chair:
    return "<path d='M5 4l3 9h8l3-4M8 13l-1 4h8M11 17v3M7 20h9'/>";
  case Icon::closeOut:
    return "<path d='M6 4h12v16H6zM9 12l2.3 2.5L15.5 9.500M9 4v-1h6v1'/>";
  case Icon::totals:
    return "<path d='M4 20h16M6.500 20v-6M12 20V6M17.500 20v-10' />";
  case Icon::desk:
    return "<path d='M4 7h9M17 7h3M4 17h3M11 17h9'/><circle cx='15' cy='7' r='2'/><circle cx='9' "
           "cy='17' r='2'/>";
  case Icon::flag:
    return "<path d='M6 21V4M6 4.500h11l-2.500 4 2.500 4H6'/>";
  case Icon::hide:
    return "<path d='M3 12c3-4.500 6-6 9-6s6 1.500 9 6c-3 4.500-6 6-9 6s-6-1.500-9-6zM4 4l16 16'/>";
  case Icon::lock:
    return "<path d='M6 11h12v9H6zM8.500 11V8a3.500 3.500 0 0 1 7 0v3'/>";
  case Icon::stop:
    return "<path d='M8.300 3h7.400L21 8.300v7.400L15.700 21H8.300L3 15.700V8.300zM8 12h8'/>";
  case Icon::drop:
    return "<path d='M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z'/>";
  case Icon::tick:
    return "<path d='M5 12.500l4.500 5L19 7'/>";
  case Icon::ask:
    return "<path d='M12 3l9.500 17h-19zM12 10v5M12 17.400v.2'/>";
  case Icon::note:
    return "<path d='M5 4h14v12l-4 4H5zM8.500 9h7M8.500 13h5'/>";
  case Icon::redo:
    return "<path d='M5 12a7 7 0 1 1 2.500 5.400M5 7v5h5'/>";
  case Icon::mail:
    return "<path d='M3.500 6h17v12h-17zM4 7l8 6 8-6'/>";
  case Icon::phone:
    return "<path d='M6 4h3l1.500 4-2 1.500a11 11 0 0 0 6 6l1.500-2 4 1.500v3c0 1-.8 2-2 2A15 15 0 "
           "0 1 4 6c0-1.200 1-2 2-2z'/>";
  case Icon::find:
    return "<circle cx='10.500' cy='10.500' r='6'/><path d='M15 15l5.500 5.500'/>";
  case Icon::go:
    return "<path d='M5 12h13M13 6.500l5.500 5.500-5.500 5.500'/>";
  case Icon::down:
    return "<path d='M6 9.500l6 6 6-6'/>";
  case Icon::clock:
    return "<circle cx='12' cy='12' r='8.500'/><path d='M12 7v5.300l3.500 2'/>";
  case Icon::team:
    return "<circle cx='9' cy='8' r='3.500'/><path d='M3 20c0-4 2.500-6.500 6-6.500s6 2.500 6 "
           "6.500M15.500 5a3.500 3.500 0 0 1 0 6.500M17 14c2.500.6 4 2.800 4 6'/>";
  case Icon::box:
    return "<path d='M4 8l8-4 8 4v9l-8 4-8-4zM4 8l8 4 8-4M12 12v9'/>";
  case Icon::school:
    return "<path d='M3 20h18M5 20V10l7-5 7 5v10M10 20v-6h4v6'/>";
  case Icon::calendar:
    return "<path d='M4 6h16v14H4zM4 10.500h16M8.500 3.500V7M15.500 3.500V7'/>";
  case Icon::laptop:
    return "<path d='M5 5h14v10H5zM2.500 19h19'/>";
  case Icon::shield:
    return "<path d='M12 3l7.500 3v5.500c0 4.500-3 7.500-7.500 "
           "9.500-4.500-2-7.500-5-7.500-9.500V6z'/>";
  case Icon::save:
    return "<path d='M12 4v10M8 10.500l4 4 4-4M4 19.500h16'/>";
  case Icon::cross:
    return "<path d='M6 6l12 12M18 6L6 18'/>";
  case Icon::dash:
    return "<path d='M6 12h12'/>";
  }
  base::fail("no such icon");
}

} // namespace

void paintIcon(QPainter& painter, const QRectF& box, Icon icon, const QColor& ink) {
  const auto svg =
      u"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 24 24' fill='none' "
      "stroke='%1' stroke-width='2' stroke-linecap='round' "
      "stroke-linejoin='round'>%2</svg>"_s.arg(ink.name(), QLatin1String(drawingOf(icon)));
  QSvgRenderer(svg.toUtf8()).render(&painter, box);
}

void paintMark(QPainter& painter, const QRectF& box, const QColor& line, const QColor& groove) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(box.topLeft());
  painter.scale(box.width() / 48, box.height() / 48);
  QPainterPath block(QPointF(4, 14));
  block.quadTo(4, 4, 12, 4);
  block.quadTo(16, 4, 17, 8);
  block.cubicTo(19, 15, 21, 28, 24, 28);
  block.cubicTo(27, 28, 29, 15, 31, 8);
  block.quadTo(32, 4, 36, 4);
  block.quadTo(44, 4, 44, 14);
  block.lineTo(44, 34);
  block.quadTo(44, 44, 34, 44);
  block.lineTo(14, 44);
  block.quadTo(4, 44, 4, 34);
  block.closeSubpath();
  QPainterPath filling(QPointF(16, 6));
  filling.quadTo(24, 11, 32, 6);
  filling.cubicTo(29, 15, 27, 27, 24, 27);
  filling.cubicTo(21, 27, 19, 15, 16, 6);
  painter.strokePath(block, QPen(line, 3.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.fillPath(filling, groove);
  painter.restore();
}

} // namespace gk::ui
