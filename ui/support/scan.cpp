#include "ui/support/scan.h"

#include "ui/support/text.h"

#include <QApplication>
#include <QKeyEvent>
#include <QWidget>

#include <algorithm>

namespace gk::ui {

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
  wait_.setInterval(gapMs);
  connect(&wait_, &QTimer::timeout, this, &ScanCatcher::release);
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

bool ScanCatcher::takes(QObject* receiver, const QKeyEvent& event) {
  if (releasing_) return false;
  const auto now = timeOf(event);
  const bool isNear = !held_.empty() && now - last_ < base::Milliseconds(gapMs);
  const bool isPlain =
      !(event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
  const bool isEnter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
  if (isEnter && isNear && held_.size() >= leastSigns && text().startsWith(prefix_)) {
    const auto code = readScan(text().mid(prefix_.size()));
    wait_.stop();
    held_.clear();
    Q_EMIT scanned(code);
    return true;
  }
  const bool isShift = event.key() == Qt::Key_Shift;
  if (isShift) return false; // a scanner shifts for capitals; nothing waits for the key itself
  const bool isSign = isPlain && !event.isAutoRepeat() && event.text().size() == 1 &&
                      event.text().front().isPrint() && event.key() != Qt::Key_Space;
  if (!isNear || !isSign || receiver != receiver_) release();
  if (!isSign) return false;
  receiver_ = receiver;
  last_ = now;
  held_.emplace_back(event.clone());
  wait_.start();
  return receiver != passing_;
}

void ScanCatcher::release() {
  wait_.stop();
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
