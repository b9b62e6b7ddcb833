#pragma once

#include "base/time/clock.h"
#include "chairside/step_timer.h"
#include "ui/support/cues.h"

#include <QTimer>
#include <QWidget>

#include <optional>

class QLabel;

namespace gk::ui {

/// The step timer: counts up through its target on the monotonic clock, in numerals that are read
/// across a room. It records nothing; the page does.
class TimerView final : public QWidget {
  Q_OBJECT

 public:
  explicit TimerView(base::Clock& clock, QWidget* parent = nullptr);

  /// Shows what comes next and its target. Precondition: not running.
  void ready(const QString& what, base::Seconds target);
  /// Past the target by so much the run is over its limit. Precondition: not running.
  void start(const QString& what, base::Seconds target);
  static constexpr base::Seconds overAfter{10}; ///< 20 s of etch are over at 30: a caution
  /// Whether cues are also seen. They are heard by whoever hears `cue`.
  void flashes(bool on) { flashes_ = on; }
  [[nodiscard]] bool isFlashing() const;
  /// The time since the start. Precondition: running.
  base::Milliseconds stop();
  /// A label that stands above the words while nothing is timed, where it is shown.
  void setAbove(QLabel* words);
  /// A line under the numerals, such as the eye-protection reminder.
  void remind(const QString& note);

  [[nodiscard]] bool isRunning() const { return timer_.has_value(); }
  /// False while a press may be the bounce of the one that started it.
  [[nodiscard]] bool accepts() const;
  [[nodiscard]] base::Milliseconds elapsed() const;
  [[nodiscard]] bool isReached() const;
  [[nodiscard]] QString text() const; ///< the numerals
  [[nodiscard]] const QString& note() const { return note_; }
  [[nodiscard]] const QString& title() const { return what_; }
  /// Whether the title and the note have room for all of their words.
  [[nodiscard]] bool hasRoom() const;
  /// Of the letters as they are drawn now, in pixels.
  [[nodiscard]] int smallestDrawn() const;

  [[nodiscard]] QSize sizeHint() const override { return {480, 200}; }

 public Q_SLOTS:
  /// Looks at the clock; runs ten times a second by itself.
  void tick();

 Q_SIGNALS:
  void reachedTarget();
  void cue(gk::ui::Cue what);
  void ticked();
  void stopped();
  /// The wall clock was set meanwhile, once a run; the run's own time is not touched.
  void wallClockMoved();
  /// The computer slept: the run does not count.
  void interrupted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void placeAbove();
  [[nodiscard]] bool isTimed() const { return target_ != base::Seconds{0} || isRunning(); }
  [[nodiscard]] QString underText() const;
  [[nodiscard]] QRect titleBox() const;
  [[nodiscard]] QRect noteBox() const;
  /// The largest face in which the words fit the box, or the smallest there is.
  [[nodiscard]] QFont faceFor(const QString& words, const QRect& box) const;
  void tell(Cue what);
  void compareClocks();

  base::Clock& clock_;
  QTimer pulse_;
  QTimer due_;   ///< looks at the clock at the target itself and not up to a pulse later
  QTimer flash_; ///< runs while a cue is seen
  std::optional<std::pair<Cue, base::Milliseconds>> seen_; ///< the last cue, and when it began
  base::Milliseconds told_{0};                             ///< cues are told up to here
  base::Milliseconds wallAhead_{0};                        ///< of steady time, at the start
  bool flashes_ = true;
  std::optional<chairside::StepTimer> timer_;
  QString what_;
  QString note_;
  base::Seconds target_{0};
  QLabel* above_ = nullptr;
  bool announced_ = false;
};

} // namespace gk::ui
