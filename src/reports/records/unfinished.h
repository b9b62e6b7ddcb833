#pragma once

#include "reports/records/day_view.h"

namespace gk::reports {

/// A tooth that was begun or meant to be sealed and has no complete placement on the day.
struct UnfinishedTooth {
  roster::ChildId child;
  std::string shown;
  dentition::Tooth tooth;
  std::string words;
  std::string how;    ///< "stopped before sealant", "seal, nothing placed"
  std::string reason; ///< may be empty, and then it blocks
  std::string room{};
  base::Date firstMeant; ///< the day since which it has been meant to be sealed
  std::string next{};    ///< when it can be finished
};

std::vector<UnfinishedTooth> unfinishedOf(const DayView& view);

} // namespace gk::reports
