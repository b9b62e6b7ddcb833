#include "ui/support/scan.h"

#include "ui/support/text.h"

#include <QApplication>
#include <QKeyEvent>
#include <QWidget>

#include <algorithm>

namespace gk::ui {

namespace {

/// A child's number, or what a scanner reads off any package of a shop.
bool isNumber(const QString& code) {
  return std::ranges::all_of(code, [](QChar sign) { return sign.isDigit() || sign == u'-'; });
}

/// A line, a number box: what is typed there is text and no act.
bool isWrittenIn(const QObject* receiver) {
  const auto* widget = qobject_cast<const QWidget*>(receiver);
  return widget && widget->testAttribute(Qt::WA_InputMethodEnabled);
}

} // namespace

QString readScan(const QString& typed) {
  // The French row and letters where an English keyboard has 1 to 9, 0, the dash and A Q Z W M.
  const auto french = u"&é\"'(-è_çà)qawz,"_s;
  const auto english = u"1234567890-aqzwm"_s;
  const auto tells = u"&é\"'(è_çà"_s;
  const bool isFrench =
      std::ranges::any_of(typed, [&](QChar sign) { return tells.contains(sign.toLower()); });
  if (!isFrench) return typed.trimmed();
  QString read;
  for (const auto sign : typed) {
    const auto place = french.indexOf(sign.toLower());
    const auto meant = place < 0 ? sign : english[place];
    read += sign.isUpper() ? meant.toUpper() : meant;
  }
  return read.trimmed();
}

ScanCatcher::ScanCatcher(base::Clock& clock, QObject* parent) : QObject(parent), clock_(clock) {
  wait_.setSingleShot(true);
  wait_.setTimerType(Qt::PreciseTimer);
  connect(&wait_, &QTimer::timeout, this, &ScanCatcher::timeUp);
}

/// When the key went down; the clock where the system does not say. A window that was busy gets
/// its keys late and all at once, which must not make hands look like a scanner.
base::Milliseconds ScanCatcher::timeOf(const QKeyEvent& event) const {
  return event.timestamp() != 0 ? base::Milliseconds(static_cast<qint64>(event.timestamp()))
                                : clock_.steady();
}

QString ScanCatcher::text() const {
  QString all;
  for (const auto& key : held_)
    all += key->text();
  return all;
}

bool ScanCatcher::mayBecome(const QObject* receiver, const QString& typed) const {
  if (isWrittenIn(receiver)) return false;
  if (!typed.startsWith(prefix_)) return prefix_.startsWith(typed);
  const auto code = readScan(typed.mid(prefix_.size()));
  if (isNumber(code)) return true;
  return codes_ && std::ranges::any_of(codes_(), [&](const QString& one) {
           return one.startsWith(code, Qt::CaseInsensitive);
         });
}

bool ScanCatcher::isCode(const QObject* receiver, const QString& typed) const {
  if (isWrittenIn(receiver) || !typed.startsWith(prefix_)) return false;
  const auto code = readScan(typed.mid(prefix_.size()));
  if (isNumber(code)) return code.size() >= static_cast<qsizetype>(leastSigns);
  return codes_ && codes_().contains(code, Qt::CaseInsensitive);
}

void ScanCatcher::hold(QObject* receiver, const QKeyEvent& event, base::Milliseconds now) {
  isQuick_ = held_.empty() || (isQuick_ && now - last_ < base::Milliseconds(gapMs));
  receiver_ = receiver;
  last_ = now;
  isOver_ = false;
  held_.emplace_back(event.clone());
  wait_.start(mayBecome(receiver, text()) ? slowGapMs : gapMs);
}

bool ScanCatcher::takes(QObject* receiver, const QKeyEvent& event) {
  if (releasing_) return false;
  const auto now = timeOf(event);
  const auto apart = now - last_;
  const bool isQuick =
      !held_.empty() && (held_.size() == 1 || isQuick_) && apart < base::Milliseconds(gapMs);
  const bool isPlain =
      !(event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
  const bool isEnter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
  const auto slow = base::Milliseconds(slowGapMs);
  if (isEnter && held_.empty() && caught_ && now >= *caught_ && now - *caught_ < slow) {
    caught_ = now; // it ends its codes with two
    return true;
  }
  if (isEnter && !held_.empty()) {
    const bool isWhole = isQuick
                             ? held_.size() >= leastSigns && text().startsWith(prefix_)
                             : apart < slow && receiver == receiver_ && isCode(receiver_, text());
    if (isWhole) {
      const auto code = readScan(text().mid(prefix_.size()));
      wait_.stop();
      held_.clear();
      caught_ = now;
      Q_EMIT scanned(code);
      return true;
    }
  }
  const bool isShift = event.key() == Qt::Key_Shift;
  if (isShift) return false; // a scanner shifts for capitals; nothing waits for the key itself
  const bool isSign = isPlain && !event.isAutoRepeat() && event.text().size() == 1 &&
                      event.text().front().isPrint() && event.key() != Qt::Key_Space;
  const bool isNear =
      isQuick || (!held_.empty() && apart < slow && mayBecome(receiver, text() + event.text()));
  if (!isNear || !isSign || receiver != receiver_) release();
  if (!isSign) return false;
  // With a prefix, only what may still begin with it waits: hands feel nothing of it.
  const auto soFar = text() + event.text();
  if (!soFar.startsWith(prefix_) && !prefix_.startsWith(soFar)) {
    release();
    return false;
  }
  hold(receiver, event, now);
  return receiver != passing_;
}

/// Keys that went down in time may still wait behind what kept the window busy: they come first.
void ScanCatcher::timeUp() {
  isOver_ = true;
  QTimer::singleShot(0, this, [this] {
    if (isOver_) release();
  });
}

void ScanCatcher::release() {
  wait_.stop();
  isOver_ = false;
  const auto held = std::move(held_);
  held_.clear();
  if (receiver_ == passing_) return; // it has them
  releasing_ = true;
  QPointer<QObject> to = receiver_;
  for (const auto& key : held) {
    if (to) QCoreApplication::sendEvent(to, key.get());
    // The key before may have opened a line to write in.
    if (auto* focus = QApplication::focusWidget()) to = focus;
  }
  releasing_ = false;
}

} // namespace gk::ui
