#pragma once

#include "reports/print/table.h"
#include "reports/records/referral_counts.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// How many referrals of the term were made, reached, seen, finished, declined, and are open for
/// too long, by urgency; and each of them with its days open. Children by number alone. `today` is
/// what days are counted to: work on a referral goes on after its term.
std::vector<Table> referralReport(const TermView& view, base::Date today);

/// Whose each row of the tracker is, the second of those tables: two of a child may read alike.
std::vector<followup::ReferralId> trackedReferrals(const TermView& view, base::Date today);

/// Common practice, no source.
inline constexpr int longOpen = 60;

/// None: of every urgency.
ReferralCounts referralCounts(const TermView& view, base::Date today,
                              std::optional<chairside::Urgency> urgency);

} // namespace gk::reports
