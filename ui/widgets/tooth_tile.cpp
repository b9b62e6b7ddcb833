#include "ui/widgets/tooth_tile.h"

#include "ui/support/style.h"
#include "ui/support/text.h"
#include "ui/widgets/tooth_marks.h"

#include <QMouseEvent>
#include <QPainter>

namespace gk::ui {

namespace {

QFont sized(const QFont& font, int pixels, bool bold) {
  QFont out = font;
  out.setPixelSize(pixels);
  out.setBold(bold);
  return out;
}

/// "Upper right" and "1st", "2nd", or what else the tooth is.
QString cornerWords(const dentition::Tooth& tooth) {
  return (tooth.isUpper() ? u"Upper "_s : u"Lower "_s) + (tooth.isRight() ? u"right"_s : u"left"_s);
}

QString placeWords(const dentition::Tooth& tooth) {
  if (tooth.isFirstPermanentMolar()) return u"1st"_s;
  if (tooth.isSecondPermanentMolar()) return u"2nd"_s;
  return (tooth.isPrimary() ? u"baby "_s : u"place "_s) + QString::number(tooth.position());
}

} // namespace

ToothTile::ToothTile(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void ToothTile::setFace(const TileFace& face, bool selected) {
  face_ = face;
  selected_ = selected;
  setAccessibleName(face.spoken);
  setObjectName(u"tile%1"_s.arg(face.tooth.iso()));
  update();
}

void ToothTile::mousePressEvent(QMouseEvent* event) {
  event->accept();
  Q_EMIT pressed();
}

void ToothTile::paintEvent(QPaintEvent*) {
  if (!face_) return;
  const auto& face = *face_;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), selected_ ? style::strong() : style::paper());
  const QRectF tile = QRectF(rect()).adjusted(6, 6, -6, -6);
  painter.fillRect(tile, face.inHand ? style::hand() : style::paper());
  paintOutline(painter, tile, face.mark);

  constexpr double mark = 78;
  const QRectF inner = tile.adjusted(7, 4, -4, -4);
  const QRectF surfaces(inner.right() - mark, inner.top() + 32, mark, mark);
  painter.setPen(style::ink());
  painter.setFont(sized(font(), style::toothText(), true));
  painter.drawText(QRectF(inner.left(), inner.top(), inner.width(), 30), Qt::AlignVCenter,
                   cornerWords(face.tooth));
  painter.drawText(QRectF(inner.left(), inner.top() + 30, inner.width() - mark, 30),
                   Qt::AlignVCenter, placeWords(face.tooth));
  painter.setFont(sized(font(), 18, false));
  painter.drawText(QRectF(inner.left(), inner.top() + 60, inner.width() - mark, 24),
                   Qt::AlignVCenter, u"no. "_s + face.number);
  paintSurfaces(painter, surfaces, face);

  const double below = surfaces.bottom() + 2;
  painter.setPen(style::ink());
  painter.setFont(sized(font(), style::toothText(), true));
  painter.drawText(QRectF(inner.left(), below, inner.width(), 30), Qt::AlignVCenter, face.word);
  painter.setFont(sized(font(), 18, false));
  painter.drawText(QRectF(inner.left(), below + 30, inner.width(), inner.bottom() - below - 30),
                   int{Qt::AlignTop} | int{Qt::TextWordWrap}, face.strip);
}

} // namespace gk::ui
