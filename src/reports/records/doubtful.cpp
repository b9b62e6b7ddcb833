#include "reports/records/doubtful.h"

#include <algorithm>

namespace gk::reports {

using followup::RetentionCheck;

Rows<RetentionCheck> stillDoubtful(const Rows<RetentionCheck>& checks,
                                   const Rows<chairside::Placement>& placements) {
  std::map<chairside::PlacementId, const base::Recorded<RetentionCheck>*> newest;
  for (const auto& row : checks) {
    auto& known = newest[row.value.placement];
    if (!known || known->stamp.entry < row.stamp.entry) known = &row;
  }
  for (const auto& row : placements)
    if (const auto at = newest.find(row.id);
        at != newest.end() && at->second->stamp.entry < row.stamp.entry)
      newest.erase(at);
  Rows<RetentionCheck> found;
  for (const auto& entry : newest)
    if (entry.second->value.why == followup::CannotAssess::recordDoubtful)
      found.push_back(*entry.second);
  std::ranges::sort(found, {}, [](const auto& row) { return row.stamp.entry; });
  return found;
}

} // namespace gk::reports
