#pragma once

#include "base/clock.h"

#include <QKeyEvent>
#include <QObject>
#include <QPointer>
#include <QTimer>

#include <memory>
#include <vector>

namespace gk::ui {

/// What a scanner typed, read as on the keyboard it believes to sit at: a scanner that types for
/// an English layout writes "&àé\"" for 1043 where the computer is set to French. A code is read so
/// when it holds a sign that only that row gives; Spanish digits need nothing.
QString readScan(const QString& typed);

/// Tells a scanner from hands: it types at least four signs, each within 30 ms of the one before,
/// and Enter at the end. While signs may still become a scan they are held, 30 ms at most, so that
/// no part of a code is ever taken for keys or lands in a line of text; then they go on as typed.
/// A line that is meant for codes gets its signs at once, and is left to be cleared after a scan.
class ScanCatcher final : public QObject {
  Q_OBJECT

 public:
  static constexpr int gapMs = 30;
  static constexpr std::size_t leastSigns = 4;

  ScanCatcher(base::Clock& clock, QObject* parent);

  /// With one, only what begins with it is a scan.
  void setPrefix(const QString& prefix) { prefix_ = prefix; }
  void letPass(const QObject* lineForCodes) { passing_ = lineForCodes; }
  [[nodiscard]] bool isHolding() const { return !held_.empty() && receiver_ != passing_; }
  /// Call for each key pressed on a widget. True when it took the key.
  bool takes(QObject* receiver, const QKeyEvent& event);
  /// Gives what is held back to where it was typed.
  void release();

 Q_SIGNALS:
  /// Without its prefix, as `readScan` reads it.
  void scanned(const QString& code);

 private:
  [[nodiscard]] base::Milliseconds timeOf(const QKeyEvent& event) const;
  [[nodiscard]] QString text() const;

  base::Clock& clock_;
  QTimer wait_;
  QString prefix_;
  const QObject* passing_ = nullptr; ///< only compared
  QPointer<QObject> receiver_;
  std::vector<std::unique_ptr<QKeyEvent>> held_;
  base::Milliseconds last_{0};
  bool releasing_ = false;
};

} // namespace gk::ui
