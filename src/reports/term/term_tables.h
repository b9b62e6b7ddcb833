#pragma once

#include "reports/print/table.h"
#include "reports/term/term_totals.h"

namespace gk::reports {

/// Participation, services, findings, retention by placing school, sealants that could not be
/// judged, and what was spared. For use inside the program: small counts are not suppressed.
std::vector<Table> termTables(const TermTotals& totals);

/// The same for a program that reads it, with what the page says in sentences.
std::vector<Table> termFile(const TermTotals& totals);

} // namespace gk::reports
