#pragma once

#include "base/clock.h"
#include "chairside/step_timer.h"

#include <QTimer>
#include <QWidget>

#include <optional>

namespace gk::ui {

/// The step timer: counts up through its target on the monotonic clock, in numerals that are read
/// across a room. It records nothing; the page does.
class TimerView final : public QWidget {
  Q_OBJECT

 public:
  explicit TimerView(base::Clock& clock, QWidget* parent = nullptr);

  /// Shows what comes next and its target. Precondition: not running.
  void ready(const QString& what, base::Seconds target);
  /// Precondition: not running.
  void start(const QString& what, base::Seconds target);
  /// The time since the start. Precondition: running.
  base::Milliseconds stop();
  /// A line under the numerals, such as the eye-protection reminder.
  void remind(const QString& note);

  [[nodiscard]] bool isRunning() const { return timer_.has_value(); }
  /// False while a press may be the bounce of the one that started it.
  [[nodiscard]] bool accepts() const;
  [[nodiscard]] base::Milliseconds elapsed() const;
  [[nodiscard]] bool isReached() const;
  [[nodiscard]] QString text() const; ///< the numerals

  [[nodiscard]] QSize sizeHint() const override { return {480, 200}; }

 public Q_SLOTS:
  /// Looks at the clock; runs ten times a second by itself.
  void tick();

 Q_SIGNALS:
  void reachedTarget();
  /// The computer slept: the run does not count.
  void interrupted();

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] QString underText() const;

  base::Clock& clock_;
  QTimer pulse_;
  QTimer flash_;
  std::optional<chairside::StepTimer> timer_;
  QString what_;
  QString note_;
  base::Seconds target_{0};
  bool announced_ = false;
};

} // namespace gk::ui
