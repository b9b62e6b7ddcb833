#include "session/day/day_pace.h"

#include <algorithm>

namespace gk::session {

DayPace paceOf(std::span<const BoardLine> board, base::LocalInstant now) {
  DayPace pace;
  std::optional<base::LocalInstant> first;
  std::optional<base::LocalInstant> last;
  for (const auto& line : board) {
    pace.seen += line.place == Place::done ? 1 : 0;
    pace.left += line.place != Place::done && line.place != Place::absent ? 1 : 0;
    if (line.seatedAt && (!first || *line.seatedAt < *first)) first = line.seatedAt;
    if (line.place == Place::done && line.endedAt && (!last || *last < *line.endedAt))
      last = line.endedAt;
  }
  const bool isToday = first && last && last->date() == now.date() && first->at.utc < last->at.utc;
  if (!isToday || pace.seen < DayPace::leastSeen) return pace;
  const auto took = last->at.utc - first->at.utc;
  pace.each = std::chrono::round<std::chrono::minutes>(took / pace.seen);
  if (pace.left == 0) return pace;
  const auto end = last->at.utc + took * pace.left / pace.seen;
  pace.ends = base::LocalInstant{{std::max(end, now.at.utc)}, now.offset};
  return pace;
}

} // namespace gk::session
