#pragma once

#include "reports/print/table.h"
#include "reports/publish/suppression.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// Referrals and their outcomes by urgency and in total, small numbers suppressed. Its total
/// alone, withheld, and a note that says why, unless the totals of the findings are shown whole.
Table publishedReferrals(const TermView& view, const SuppressionRule& rule, base::Date today,
                         bool findingsAreWhole);

} // namespace gk::reports
