#pragma once

#include "reports/day/close_out.h"

namespace gk::reports {

/// A student whom the team has to see again at this school, and why.
struct ReturnVisit {
  roster::ChildId child;
  std::string shown;
  std::string room;
  std::string why;  ///< "absent", "unfinished: upper right first molar"
  std::string next; ///< when it can be done, where the sheet knows
};

/// Absent, out of time, on hold, begun and unfinished, and on the last day whoever no one saw this
/// term: each once, by room, then as shown.
std::vector<ReturnVisit> returnVisits(const CloseOut& day);

} // namespace gk::reports
