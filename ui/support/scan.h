#pragma once

#include "base/time/clock.h"

#include <QKeyEvent>
#include <QObject>
#include <QPointer>
#include <QStringList>
#include <QTimer>

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace gk::ui {

/// What a scanner typed, read as on the keyboard it believes to sit at: a scanner that types for
/// an English layout writes "&àé\"" for 1043 where the computer is set to French. A code is read so
/// when it holds a sign that only that row gives; Spanish digits need nothing.
QString readScan(const QString& typed);

/// Tells a scanner from hands: it types at least four signs, each within 30 ms of the one before,
/// and Enter at the end. While signs may still become a scan they are held, so that no part of a
/// code is ever taken for keys or lands in a line of text; then they go on as typed. Where keys are
/// acts, what may become a number or a lot of this logbook is waited for longer, since a scanner on
/// a slow cable types like quick hands. What counts is when a key went down: a window that was busy
/// loses no scan. A line that is meant for codes gets its signs at once, and is left to be cleared
/// after a scan.
class ScanCatcher final : public QObject {
  Q_OBJECT

 public:
  static constexpr int gapMs = 30;
  static constexpr int slowGapMs = 100; ///< a slow scanner's; 80 ms a key and its jitter
  static constexpr std::size_t leastSigns = 4;

  ScanCatcher(base::Clock& clock, QObject* parent);

  /// With one, only what begins with it is a scan.
  void setPrefix(const QString& prefix) { prefix_ = prefix; }
  void letPass(const QObject* lineForCodes) { passing_ = lineForCodes; }
  /// The codes that are no numbers, such as the lots of the logbook.
  void knows(std::function<QStringList()> codes) { codes_ = std::move(codes); }
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
  /// Whether it may be slow: it goes to no line of text, and may become a code (or is one).
  [[nodiscard]] bool mayBecome(const QObject* receiver, const QString& typed) const;
  [[nodiscard]] bool isCode(const QObject* receiver, const QString& typed) const;
  void hold(QObject* receiver, const QKeyEvent& event, base::Milliseconds now);
  void timeUp();

  base::Clock& clock_;
  QTimer wait_;
  QString prefix_;
  const QObject* passing_ = nullptr; ///< only compared
  QPointer<QObject> receiver_;
  std::function<QStringList()> codes_;
  std::vector<std::unique_ptr<QKeyEvent>> held_;
  base::Milliseconds last_{0};
  std::optional<base::Milliseconds> caught_; ///< when the last scan ended
  bool isQuick_ = false;                     ///< every sign held came as fast as no hand types
  bool isOver_ = false;                      ///< time is up, but for keys that wait in the queue
  bool releasing_ = false;
};

} // namespace gk::ui
