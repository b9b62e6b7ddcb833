#pragma once

#include "base/time/clock.h"

#include <optional>

namespace gk::chairside {

/// Counts up through its target on monotonic time; never on the wall clock.
class StepTimer {
 public:
  /// Presses closer together than this are one press (bounce of pedals and keys).
  static constexpr base::Milliseconds bounce{300};
  /// A gap between two looks longer than this means the computer slept.
  static constexpr base::Milliseconds sleepGap{5000};

  StepTimer(base::Seconds target, base::Milliseconds steadyNow);

  /// Call at every tick. False once a gap shows that the computer slept: the run is interrupted.
  bool observe(base::Milliseconds steadyNow);
  /// Whether a press at this moment counts, or is the bounce of the one that started it.
  [[nodiscard]] bool accepts(base::Milliseconds steadyNow) const;

  /// Never negative. After a sleep it stays at the last look before it.
  [[nodiscard]] base::Milliseconds elapsed(base::Milliseconds steadyNow) const;
  /// Never after a sleep.
  [[nodiscard]] bool reached(base::Milliseconds steadyNow) const;
  [[nodiscard]] base::Seconds target() const { return target_; }
  [[nodiscard]] bool slept() const { return slept_; }

 private:
  base::Seconds target_;
  base::Milliseconds started_;
  base::Milliseconds seen_;
  bool slept_ = false;
};

} // namespace gk::chairside
