#include "ui/keys/step_track.h"

#include "ui/keys/icons.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>
#include <QStringList>

#include <algorithm>

namespace gk::ui {

namespace {

/// Half as much as the letters grow: the map needs the room.
int trackGrown(int usual) {
  return (usual + style::px(usual)) / 2;
}

constexpr int usualLetters = 18;
constexpr int mostLetters = 25; // larger ones leave a laptop of 690 lines no room
constexpr int besideStep = 6;

QString stepStateWords(StepTrack::State state) {
  switch (state) {
  case StepTrack::State::done:
    return u"done"_s;
  case StepTrack::State::now:
    return u"now"_s;
  case StepTrack::State::again:
    return u"again"_s;
  case StepTrack::State::later:
    return u"to come"_s;
  case StepTrack::State::none:
    return u"not for this child"_s;
  }
  return {};
}

bool isStepNow(const StepTrack::Step& step) {
  return step.state == StepTrack::State::now || step.state == StepTrack::State::again;
}

} // namespace

StepTrack::StepTrack(Shape shape, QWidget* parent) : QWidget(parent), shape_(shape) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  style::whenDressed(this, [this] { updateGeometry(); });
}

void StepTrack::setSteps(std::vector<Step> steps) {
  if (steps == steps_) return;
  steps_ = std::move(steps);
  QStringList words;
  for (const auto& step : steps_)
    words += step.words + u' ' + stepStateWords(step.state);
  setAccessibleName(words.join(u", "_s));
  update();
}

QFont StepTrack::letters(bool bold) const {
  auto made = font();
  made.setPixelSize(std::min(trackGrown(usualLetters), mostLetters));
  made.setWeight(bold ? QFont::Bold : QFont::Medium);
  return made;
}

QSize StepTrack::sizeHint() const {
  const int high = QFontMetrics(letters(true)).height();
  return {300, shape_ == Shape::pills ? high + 12 : high + 30};
}

int StepTrack::smallestDrawn() const {
  return letters(false).pixelSize();
}

bool StepTrack::hasRoom() const {
  const QFontMetrics metrics(letters(true));
  const int each = width() / std::max(1, static_cast<int>(steps_.size())) - besideStep;
  return std::ranges::all_of(steps_, [&](const Step& step) {
    return metrics.horizontalAdvance(step.words) + (shape_ == Shape::pills ? 40 : 2) <= each;
  });
}

void StepTrack::paintPill(QPainter& painter, const QRectF& box, const Step& step) const {
  const bool now = isStepNow(step);
  const bool isDone = step.state == State::done;
  painter.setPen(now || isDone ? QPen(Qt::NoPen) : QPen(style::edge(), 1.5, Qt::DashLine));
  painter.setBrush(now      ? QBrush(style::strong())
                   : isDone ? QBrush(style::soft())
                            : QBrush(Qt::NoBrush));
  painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), box.height() / 2, box.height() / 2);
  const auto ink = now ? style::onStrong() : isDone ? style::ink() : style::quiet();
  painter.setFont(letters(now || isDone));
  const QFontMetricsF metrics(painter.font());
  const double side = step.state == State::later ? 0 : metrics.height() * 0.8;
  const double whole = metrics.horizontalAdvance(step.words) + (side > 0 ? side + 7 : 0);
  double x = box.center().x() - whole / 2;
  if (side > 0) {
    const QRectF sign(x, box.center().y() - side / 2, side, side);
    if (now) {
      painter.setPen(Qt::NoPen);
      painter.setBrush(ink);
      painter.drawEllipse(sign.center(), side * 0.3, side * 0.3);
    } else {
      paintIcon(painter, sign, isDone ? Icon::tick : Icon::dash, ink);
    }
    x += side + 7;
  }
  painter.setPen(ink);
  painter.drawText(QRectF(x, box.top(), box.right() - x, box.height()),
                   Qt::AlignLeft | Qt::AlignVCenter, step.words);
}

void StepTrack::paintCircles(QPainter& painter) const {
  const double each = static_cast<double>(width()) / static_cast<double>(steps_.size());
  constexpr double radius = 12;
  const double y = radius + 1;
  painter.setPen(QPen(style::edge(), 2));
  painter.drawLine(QPointF(each / 2, y), QPointF(width() - each / 2, y));
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    const auto& step = steps_[i];
    const QPointF center(each * (static_cast<double>(i) + 0.5), y);
    const bool now = isStepNow(step);
    const bool isDone = step.state == State::done;
    painter.setPen(QPen(now || isDone ? style::strong() : style::edge(), 2,
                        now || isDone ? Qt::SolidLine : Qt::DashLine));
    painter.setBrush(now ? style::strong() : isDone ? style::soft() : style::ground());
    painter.drawEllipse(center, radius, radius);
    const QRectF sign(center.x() - 8, center.y() - 8, 16, 16);
    if (isDone) paintIcon(painter, sign, Icon::tick, style::ink());
    if (step.state == State::again) paintIcon(painter, sign, Icon::redo, style::onStrong());
    if (step.state == State::now) {
      painter.setPen(Qt::NoPen);
      painter.setBrush(style::onStrong());
      painter.drawEllipse(center, 4.5, 4.5);
    }
    if (!hasRoom() && !now) continue;
    painter.setFont(letters(now));
    painter.setPen(now || isDone ? style::ink() : style::quiet());
    const QFontMetricsF metrics(painter.font());
    const double wide = metrics.horizontalAdvance(step.words) + 4;
    const double left = std::clamp(center.x() - wide / 2, 0.0, std::max(0.0, width() - wide));
    painter.drawText(QRectF(left, 2 * radius + 3, wide, metrics.height() + 2),
                     Qt::AlignHCenter | Qt::AlignTop, step.words);
  }
}

void StepTrack::paintEvent(QPaintEvent* /*event*/) {
  if (steps_.empty()) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  if (shape_ == Shape::circles) return paintCircles(painter);
  if (!hasRoom()) {
    const auto at = std::ranges::find_if(steps_, isStepNow);
    if (at == steps_.end()) return;
    auto alone = *at;
    alone.words = u"%1 of %2  %3"_s.arg(at - steps_.begin() + 1).arg(steps_.size()).arg(at->words);
    return paintPill(painter, QRectF(rect()), alone);
  }
  const double each = (width() + besideStep) / static_cast<double>(steps_.size()) - besideStep;
  for (std::size_t i = 0; i < steps_.size(); ++i)
    paintPill(painter, QRectF(static_cast<double>(i) * (each + besideStep), 0, each, height()),
              steps_[i]);
}

} // namespace gk::ui
