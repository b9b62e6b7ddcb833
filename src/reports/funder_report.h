#pragma once

#include "reports/suppression.h"
#include "reports/table.h"
#include "reports/term_totals.h"

namespace gk::reports {

/// What a funder or a state asks for, and may have: participation by school and by grade, oral
/// health, services, retention with every denominator, referrals and their outcomes, targets
/// against actual, decay spared with its limits. Small numbers are hidden as in `publishedTables`.
/// What would let a hidden number be worked out from another part is left out, and says so.
/// `version` is printed as it is, when there is one.
std::vector<Table> funderReport(const TermRecords& records, const TermTotals& totals,
                                const SuppressionRule& rule, base::Date today,
                                const std::string& version);

} // namespace gk::reports
