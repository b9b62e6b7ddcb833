#pragma once

#include "base/identity/entry.h"

#include <vector>

namespace gk::followup {

using MergeNoteId = base::Id<struct MergeNoteTag>;

/// What came of one laptop's acts in a merge.
struct BroughtOf {
  base::LaptopId laptop;
  std::int64_t entries;  ///< that were new
  std::int64_t sequence; ///< of its last row among them
  bool operator==(const BroughtOf&) const = default;
};

/// That another logbook was merged into the one of the laptop that wrote this; its author merged
/// it. Such notes alone are no reason for another, so that merging in turn comes to an end.
struct MergeNote {
  using Key = MergeNoteId;
  std::int64_t entries = 0; ///< that were new, notes of other merges among them
  std::int64_t erased = 0;  ///< of students whom either logbook lists as erased
  std::vector<BroughtOf> from{};
  bool operator==(const MergeNote&) const = default;
};

} // namespace gk::followup
