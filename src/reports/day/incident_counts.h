#pragma once

#include "reports/records/day_closing.h"

namespace gk::reports {

struct IncidentCount {
  followup::IncidentType type;
  int count = 0;
  int open = 0; ///< of them, with something still to be done
};

/// The sorts that happened, in their own order; each incident once. No one is named in it.
std::vector<IncidentCount> incidentCounts(const Rows<followup::Incident>& incidents);
std::vector<IncidentCount> incidentCounts(const std::vector<IncidentLine>& lines);

/// "1 eye splash, 2 fall"; empty without any.
std::string countWords(const std::vector<IncidentCount>& counts);

} // namespace gk::reports
