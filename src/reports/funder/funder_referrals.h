#pragma once

#include "reports/publish/published.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// Referrals and their outcomes by urgency and in total, small numbers suppressed. Its total
/// alone, withheld, and a note that says why, unless the totals of the findings are shown whole.
void addReferrals(Published& published, const TermView& view, const SuppressionRule& rule,
                  base::Date today, std::span<const Release> earlier);

} // namespace gk::reports
