#include "followup/placements_confirmed.h"

#include <algorithm>
#include <map>

namespace gk::followup {

using chairside::Placement;

std::set<base::EntryId>
confirmedRows(std::span<const base::Recorded<Placement>> history,
              std::span<const base::Recorded<PlacementsConfirmed>> confirmations) {
  std::set<base::EntryId> confirmed;
  for (const auto& said : confirmations) {
    const auto last = std::ranges::find(history, said.value.through,
                                        [](const auto& row) { return row.stamp.entry; });
    if (last == history.end()) continue;
    for (const auto& row : history)
      if (row.value.placedBy == said.value.member && row.stamp.laptop == last->stamp.laptop &&
          row.stamp.sequence <= last->stamp.sequence)
        confirmed.insert(row.stamp.entry);
  }
  return confirmed;
}

std::vector<base::EntryId> lastOfEachLaptop(std::span<const base::Recorded<Placement>> rows) {
  std::map<base::LaptopId, const base::Stamp*> last;
  for (const auto& row : rows) {
    auto& newest = last[row.stamp.laptop];
    if (!newest || newest->sequence < row.stamp.sequence) newest = &row.stamp;
  }
  std::vector<base::EntryId> entries;
  for (const auto& [laptop, stamp] : last)
    entries.push_back(stamp->entry);
  return entries;
}

} // namespace gk::followup
