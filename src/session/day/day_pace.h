#pragma once

#include "session/values/views.h"

#include <optional>
#include <span>

namespace gk::session {

/// How far a day is and when it will end at its own pace: as many students an hour as were seen
/// from the first seating to the last outcome, all chairs together.
struct DayPace {
  int seen = 0;
  int left = 0; ///< waiting, in the chair or parked
  /// Of one student, on the average; none before `leastSeen` were seen.
  std::optional<std::chrono::minutes> each{};
  /// None without a pace, or when no one is left.
  std::optional<base::LocalInstant> ends{};

  /// Fewer say nothing of a pace (ours; no source).
  static constexpr int leastSeen = 3;
};

/// Of the board of a day, at `now`; of another day than today nothing is expected.
DayPace paceOf(std::span<const BoardLine> board, base::LocalInstant now);

} // namespace gk::session
