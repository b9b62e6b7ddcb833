#pragma once

#include "reports/publish/published.h"

namespace gk::reports {

/// What a funder or a state asks for, and may have, on one sheet: the term's key figures in total,
/// each with what it is a share of, and below them methods and limits. Small numbers are hidden as
/// in `published`, which is of these totals.
std::vector<Table> funderSummary(const TermView& view, const TermTotals& totals,
                                 const Published& published, const SuppressionRule& rule,
                                 base::Date today);

/// The tables behind the summary, by school and by grade. What would let a hidden number be worked
/// out from another part is left out, and says so.
std::vector<Table> funderAnnex(const TermView& view, const TermTotals& totals,
                               const Published& published, const SuppressionRule& rule,
                               base::Date today);

} // namespace gk::reports
