#include "ui/widgets/timer_view.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "ui/look/numerals.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QLabel>
#include <QPainter>

#include <algorithm>
#include <array>

namespace gk::ui {

using base::Milliseconds;
using base::Seconds;

namespace {

constexpr int pulseMs = 100;
constexpr int timerHeight = 200;
constexpr int inset = 20;
constexpr int flashMs = 50;
/// Of the title and the note, the first that fits. Smaller letters are not read at arm's length.
constexpr std::array faces{22, 20, 18};
/// Two lines of the smallest of them, above and below the numerals.
constexpr int twoLines = 46;
constexpr int wrapped = int{Qt::AlignLeft} | int{Qt::AlignVCenter} | int{Qt::TextWordWrap};
/// Clocks that a server corrects drift by less than this; a person's hand moves them by more.
constexpr Milliseconds clockMoved{2000};

QFont sized(const QFont& font, int pixels, bool bold = true) {
  QFont out = font;
  out.setPixelSize(pixels);
  out.setBold(bold);
  return out;
}

} // namespace

TimerView::TimerView(base::Clock& clock, QWidget* parent) : QWidget(parent), clock_(clock) {
  setObjectName(u"timerView"_s);
  setFixedHeight(timerHeight);
  pulse_.setInterval(pulseMs);
  due_.setSingleShot(true);
  due_.setTimerType(Qt::PreciseTimer);
  connect(&due_, &QTimer::timeout, this, &TimerView::tick);
  flash_.setInterval(flashMs);
  connect(&pulse_, &QTimer::timeout, this, &TimerView::tick);
  connect(&flash_, &QTimer::timeout, this, [this] {
    if (!seen_ || clock_.steady() - seen_->second > length(seen_->first)) flash_.stop();
    update();
  });
}

void TimerView::ready(const QString& what, Seconds target) {
  base::require(!isRunning(), "one timer at a time");
  what_ = what;
  target_ = target;
  placeAbove();
  update();
}

void TimerView::setAbove(QLabel* words) {
  above_ = words;
  above_->setParent(this);
  style::whenDressed(this, [this] { placeAbove(); });
}

void TimerView::placeAbove() {
  if (!above_) return;
  above_->ensurePolished();
  const int wide = width() - 2 * inset;
  above_->setGeometry(inset, 10, wide, above_->heightForWidth(wide));
}

void TimerView::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  placeAbove();
}

void TimerView::start(const QString& what, Seconds target) {
  ready(what, target);
  timer_.emplace(target, clock_.steady());
  announced_ = false;
  told_ = Milliseconds{0};
  wallAhead_ = clock_.now().at.utc - clock_.steady();
  pulse_.start();
  due_.start(Milliseconds(target));
  tell(Cue::start);
}

Milliseconds TimerView::stop() {
  base::require(isRunning(), "no timer runs");
  const auto lasted = elapsed();
  pulse_.stop();
  due_.stop();
  timer_.reset();
  update();
  Q_EMIT stopped();
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
  compareClocks();
  update();
  const auto now = elapsed();
  for (const auto what : cuesBetween(told_, now, target_, target_ + overAfter))
    tell(what);
  told_ = now;
  Q_EMIT ticked();
  if (announced_ || !isReached()) return;
  announced_ = true;
  Q_EMIT reachedTarget();
}

void TimerView::tell(Cue what) {
  seen_.emplace(what, clock_.steady());
  if (flashes_) flash_.start();
  update();
  Q_EMIT cue(what);
}

void TimerView::compareClocks() {
  const auto ahead = clock_.now().at.utc - clock_.steady();
  if (std::chrono::abs(ahead - wallAhead_) < clockMoved) return;
  wallAhead_ = ahead;
  Q_EMIT wallClockMoved();
}

bool TimerView::isFlashing() const {
  return flashes_ && seen_ && isLit(seen_->first, clock_.steady() - seen_->second);
}

QString TimerView::underText() const {
  if (target_ == Seconds{0}) return {};
  auto target = u"of %1 s"_s.arg(target_.count());
  if (!timer_) return target;
  return target + (isReached() ? u"\nREACHED"_s : u"\nrunning"_s);
}

void TimerView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const bool flashing = isFlashing();
  const QColor ground = flashing ? style::ink() : style::card();
  const QColor words = flashing ? style::card() : style::ink();
  painter.setRenderHint(QPainter::Antialiasing);
  const double line = isRunning() ? 5 : 2;
  const double off = line / 2 + 0.5;
  painter.setPen(QPen(isRunning() ? style::strong() : style::edge(), line));
  painter.setBrush(ground);
  painter.drawRoundedRect(QRectF(rect()).adjusted(off, off, -off, -off), 10, 10);
  painter.setPen(words);

  painter.setFont(faceFor(what_, titleBox()));
  painter.drawText(titleBox(), wrapped, what_);
  painter.setFont(faceFor(note_, noteBox()));
  painter.drawText(noteBox(), wrapped, note_);
  if (!isTimed()) return;

  auto numerals = sized(font(), style::timerText);
  numerals.setWeight(QFont::ExtraBold);
  painter.setFont(numerals);
  // None moves as the others change.
  drawEven(painter, QRectF(inset, 40, width() - 2 * inset, 96), Qt::AlignLeft | Qt::AlignVCenter,
           text());
  painter.setFont(sized(font(), 26));
  painter.drawText(QRect(width() - 210, 44, 210 - inset, 90), Qt::AlignRight | Qt::AlignVCenter,
                   underText());

  const QRectF bar(inset, 131, width() - 2 * inset, 18);
  const double whole = std::max<double>(static_cast<double>(Milliseconds(target_).count()), 1.0);
  const double part = std::min(1.0, static_cast<double>(elapsed().count()) / whole);
  painter.setPen(Qt::NoPen);
  painter.setBrush(flashing ? style::card() : style::strong());
  painter.drawRoundedRect(QRectF(bar.left(), bar.top(), bar.width() * part, bar.height()), 5, 5);
  painter.setPen(QPen(words, 2));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(bar, 6, 6);
  painter.setPen(QPen(words, 1.5));
  for (int quarter = 1; quarter < 4; ++quarter) {
    const double at = bar.left() + bar.width() * quarter / 4;
    painter.drawLine(QPointF(at, bar.top()), QPointF(at, bar.bottom()));
  }
}

QRect TimerView::titleBox() const {
  const int wide = width() - 2 * inset;
  if (isTimed()) return {inset, 3, wide, twoLines};
  // Where nothing is timed the words have all the room.
  const int top = above_ && !above_->isHidden() ? above_->geometry().bottom() : 6;
  return {inset, top, wide, height() - 6 - top - (note_.isEmpty() ? 0 : twoLines)};
}

QRect TimerView::noteBox() const {
  return {inset, height() - twoLines - 3, width() - 2 * inset, twoLines};
}

QFont TimerView::faceFor(const QString& words, const QRect& box) const {
  for (const int pixels : faces) {
    auto face = sized(font(), pixels);
    if (box.contains(QFontMetrics(face).boundingRect(box, wrapped, words))) return face;
  }
  return sized(font(), faces.back());
}

int TimerView::smallestDrawn() const {
  return std::min(faceFor(what_, titleBox()).pixelSize(), faceFor(note_, noteBox()).pixelSize());
}

bool TimerView::hasRoom() const {
  const auto fits = [&](const QString& words, const QRect& box) {
    return box.contains(QFontMetrics(faceFor(words, box)).boundingRect(box, wrapped, words));
  };
  return fits(what_, titleBox()) && fits(note_, noteBox());
}

} // namespace gk::ui
