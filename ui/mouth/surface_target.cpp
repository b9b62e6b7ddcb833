#include "ui/mouth/surface_target.h"

#include "reports/display_names.h"
#include "ui/look/style.h"
#include "ui/mouth/tooth_marks.h"
#include "ui/support/text.h"

#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace gk::ui {

using dentition::Surface;

namespace {

/// A square, or a tab with the two corners round that point away from the tooth.
QPainterPath shapeOf(const QRectF& box, std::optional<TabSide> side) {
  QPainterPath path;
  if (!side) {
    path.addRoundedRect(box, box.width() * 0.16, box.width() * 0.16);
    return path;
  }
  const double round = std::min(box.width(), box.height()) * 0.45;
  path.addRoundedRect(box, round, round);
  const bool beside = *side == TabSide::left || *side == TabSide::right;
  const QPointF half = beside ? QPointF(box.width() / 2, 0) : QPointF(0, box.height() / 2);
  const bool farHalf = *side == TabSide::left || *side == TabSide::top;
  const QPointF near = farHalf ? box.topLeft() + half : box.topLeft();
  QPainterPath square;
  square.addRect(QRectF(near, beside ? QSizeF(box.width() / 2, box.height())
                                     : QSizeF(box.width(), box.height() / 2)));
  return path.united(square).simplified();
}

QString letterOf(Surface surface) {
  return toQt(dentition::letters({surface}));
}

} // namespace

SurfaceTarget::SurfaceTarget(Surface surface, QWidget* parent)
    : QWidget(parent), surface_(surface) {
  setAttribute(Qt::WA_NoSystemBackground);
}

void SurfaceTarget::setFace(const TileFace& face) {
  face_ = face;
  setObjectName(u"surface%1%2"_s.arg(face.tooth.iso()).arg(letterOf(surface_)));
  const auto state = face.covered.has(surface_)  ? u", covered"_s
                     : face.due.has(surface_)    ? u", now"_s
                     : face.chosen.has(surface_) ? u", to seal"_s
                                                 : QString();
  setAccessibleName(capital(toQt(base::displayName(surface_))) + u" of "_s +
                    toQt(face.tooth.words()) + state);
  update();
}

void SurfaceTarget::mousePressEvent(QMouseEvent* event) {
  event->accept();
  Q_EMIT pressed();
}

void SurfaceTarget::paintEvent(QPaintEvent*) {
  if (!face_) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const bool chosen = face_->chosen.has(surface_);
  const bool covered = face_->covered.has(surface_);
  const bool due = face_->due.has(surface_);
  const auto side = tabSide(face_->tooth, surface_);
  const auto box = QRectF(rect()).adjusted(5, 5, -5, -5);
  const auto shape = shapeOf(box, side);

  painter.fillPath(shape, covered ? style::cured() : style::card());
  if (covered) { // also as a band, for eyes and prints without color
    painter.setClipPath(shape);
    const double high = box.height() / 6;
    painter.fillRect(QRectF(box.left(), box.bottom() - high, box.width(), high), style::onCured());
    painter.setClipping(false);
  }
  QPen pen(chosen || due ? style::ink() : style::edge(), due ? 6 : chosen ? 3.5 : 2);
  if (face_->quiet) pen.setStyle(Qt::DashLine);
  pen.setJoinStyle(Qt::MiterJoin);
  painter.strokePath(shape, pen);
  if (due) painter.strokePath(shapeOf(box.adjusted(9, 9, -9, -9), side), QPen(style::ink(), 2));
  if (face_->picked == surface_) paintCorners(painter, QRectF(rect()));

  if (surface_ == Surface::occlusal) {
    paintSymbol(painter, box, face_->mark, covered);
    return;
  }
  auto font = painter.font();
  font.setPixelSize(std::min(style::px(20), 26));
  font.setBold(chosen);
  painter.setFont(font);
  painter.setPen(covered ? style::onCured() : chosen ? style::ink() : style::quiet());
  painter.drawText(box, Qt::AlignCenter, letterOf(surface_));
}

} // namespace gk::ui
