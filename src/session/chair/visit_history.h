#pragma once

#include "reports/print/table.h"
#include "session/reader.h"

namespace gk::session {

/// What one day's visit of a child was.
struct PastVisit {
  roster::DayId day;
  base::Date on;
  std::string school;
  std::string outcome; ///< empty while the visit is not ended
  std::string done;    ///< "sealed 4: 3, 14, 19, 30; varnish", what was placed, checked, stopped
  std::string who;     ///< initials of whoever placed or screened
};

/// Every day on which the child was seated, screened, treated or ended, the newest first. Opens no
/// name.
Result<std::vector<PastVisit>> pastVisits(Reader& book, roster::ChildId child);

/// The card of it: who the child is, and a row for each visit.
Result<reports::Table> visitCard(Reader& book, roster::ChildId child);

} // namespace gk::session
