#include "ui/widgets/timer_view.h"

#include "base/contract.h"
#include "base/text.h"
#include "ui/support/style.h"
#include "ui/support/text.h"

#include <QApplication>
#include <QPainter>

#include <algorithm>

namespace gk::ui {

using base::Milliseconds;
using base::Seconds;

namespace {

constexpr int pulseMs = 100;
constexpr int flashMs = 400;

QFont sized(const QFont& font, int pixels, bool bold = true) {
  QFont out = font;
  out.setPixelSize(pixels);
  out.setBold(bold);
  return out;
}

} // namespace

TimerView::TimerView(base::Clock& clock, QWidget* parent) : QWidget(parent), clock_(clock) {
  setObjectName(u"timerView"_s);
  setFixedHeight(192);
  pulse_.setInterval(pulseMs);
  flash_.setInterval(flashMs);
  flash_.setSingleShot(true);
  connect(&pulse_, &QTimer::timeout, this, &TimerView::tick);
  connect(&flash_, &QTimer::timeout, this, qOverload<>(&TimerView::update));
}

void TimerView::ready(const QString& what, Seconds target) {
  base::require(!isRunning(), "one timer at a time");
  what_ = what;
  target_ = target;
  update();
}

void TimerView::start(const QString& what, Seconds target) {
  ready(what, target);
  timer_.emplace(target, clock_.steady());
  announced_ = false;
  pulse_.start();
  QApplication::beep();
  update();
}

Milliseconds TimerView::stop() {
  base::require(isRunning(), "no timer runs");
  const auto lasted = elapsed();
  pulse_.stop();
  timer_.reset();
  update();
  return lasted;
}

void TimerView::remind(const QString& note) {
  note_ = note;
  update();
}

bool TimerView::accepts() const {
  return !timer_ || timer_->accepts(clock_.steady());
}

Milliseconds TimerView::elapsed() const {
  return timer_ ? timer_->elapsed(clock_.steady()) : Milliseconds{0};
}

bool TimerView::isReached() const {
  return timer_ && timer_->reached(clock_.steady());
}

QString TimerView::text() const {
  const auto tenths = elapsed().count() / 100;
  return toQt(base::fixed(static_cast<double>(tenths) / 10.0, 1));
}

void TimerView::tick() {
  if (!timer_) return;
  if (!timer_->observe(clock_.steady())) {
    Q_EMIT interrupted();
    return;
  }
  update();
  if (announced_ || !isReached()) return;
  announced_ = true;
  flash_.start();
  QApplication::beep();
  QApplication::beep();
  Q_EMIT reachedTarget();
}

QString TimerView::underText() const {
  if (target_ == Seconds{0}) return {};
  auto target = u"of %1 s"_s.arg(target_.count());
  if (!timer_) return target;
  return target + (isReached() ? u"\nREACHED"_s : u"\nrunning"_s);
}

void TimerView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const bool flashing = flash_.isActive();
  const QColor ground = flashing ? style::ink() : style::paper();
  const QColor words = flashing ? style::paper() : style::ink();
  painter.fillRect(rect(), ground);
  painter.setPen(QPen(style::ink(), isRunning() ? 5 : 2));
  painter.drawRect(rect().adjusted(2, 2, -3, -3));
  painter.setPen(words);

  painter.setFont(sized(font(), 20));
  painter.drawText(QRect(14, 6, width() - 28, 28), Qt::AlignLeft | Qt::AlignVCenter,
                   painter.fontMetrics().elidedText(what_, Qt::ElideRight, width() - 28));
  painter.setFont(sized(font(), style::timerText));
  painter.drawText(QRect(14, 24, width() - 28, 108), Qt::AlignLeft | Qt::AlignVCenter, text());
  painter.setFont(sized(font(), 26));
  painter.drawText(QRect(width() - 190, 38, 176, 90), Qt::AlignRight | Qt::AlignVCenter,
                   underText());

  const QRect bar(14, 134, width() - 28, 16);
  const double whole = std::max<double>(static_cast<double>(Milliseconds(target_).count()), 1.0);
  const double part = std::min(1.0, static_cast<double>(elapsed().count()) / whole);
  painter.fillRect(QRect(bar.left(), bar.top(), static_cast<int>(bar.width() * part), bar.height()),
                   flashing ? style::paper() : style::strong());
  painter.setPen(QPen(words, 2));
  painter.drawRect(bar);

  painter.setFont(sized(font(), 16));
  painter.drawText(QRect(14, 151, width() - 28, height() - 154),
                   int{Qt::AlignLeft} | int{Qt::AlignVCenter} | int{Qt::TextWordWrap}, note_);
}

} // namespace gk::ui
