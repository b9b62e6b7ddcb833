#pragma once

#include "base/time/date.h"

#include <chrono>
#include <compare>

namespace gk::base {

using Milliseconds = std::chrono::milliseconds;
using Seconds = std::chrono::seconds;

/// A moment: UTC milliseconds since 1970 (never negative here).
struct Instant {
  Milliseconds utc{};
  auto operator<=>(const Instant&) const = default;
};

/// A moment and how far local time was ahead of UTC when it was noted.
struct LocalInstant {
  Instant at;
  std::chrono::minutes offset{};
  auto operator<=>(const LocalInstant&) const = default;

  /// The calendar date on the wall where it was noted.
  [[nodiscard]] Date date() const;
  /// Minutes since local midnight, 0-1439.
  [[nodiscard]] std::chrono::minutes timeOfDay() const;
  /// "2026-11-17 10:42", for files and other programs.
  [[nodiscard]] std::string text() const;
  /// "Nov 17, 2026, 10:42 AM".
  [[nodiscard]] std::string words() const;
  /// "10:42 AM".
  [[nodiscard]] std::string clockWords() const;
};

/// Builds the moment that a wall clock `offset` ahead of UTC shows as `date` and `timeOfDay`.
LocalInstant atLocal(Date date, std::chrono::minutes timeOfDay, std::chrono::minutes offset);

/// Time is passed in. `steady` never goes back and does not follow the wall clock, so durations are
/// taken from it alone.
class Clock {
 public:
  virtual ~Clock() = default;
  virtual LocalInstant now() = 0;
  virtual Milliseconds steady() = 0;
  /// As `steady`, but it stands still while the laptop sleeps: the two drift apart by the sleep.
  virtual Milliseconds awake() = 0;
};

class SystemClock final : public Clock {
 public:
  LocalInstant now() override;
  Milliseconds steady() override;
  Milliseconds awake() override;
};

/// Stands still until told; for tests and for the demo's story.
class ManualClock final : public Clock {
 public:
  explicit ManualClock(LocalInstant start) : now_(start) {}

  LocalInstant now() override { return now_; }
  Milliseconds steady() override { return steady_; }
  Milliseconds awake() override { return steady_ - slept_; }

  /// Both clocks go on together. Precondition: `by` is not negative.
  void advance(Milliseconds by);
  /// The laptop sleeps so long. Precondition: `by` is not negative.
  void sleep(Milliseconds by);
  /// The wall clock alone is set, as when a battery is dead or summer time ends.
  void setWall(LocalInstant to) { now_ = to; }

 private:
  LocalInstant now_;
  Milliseconds steady_{0};
  Milliseconds slept_{0};
};

} // namespace gk::base
