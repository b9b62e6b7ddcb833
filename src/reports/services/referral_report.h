#pragma once

#include "reports/print/table.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// How many referrals of the term were made, reached, seen, finished, declined, and are open for
/// too long, by urgency; and each of them with its days open. Children by number alone. `today` is
/// what days are counted to: work on a referral goes on after its term.
std::vector<Table> referralReport(const TermView& view, base::Date today);

/// Whose each row of the tracker is, the second of those tables: two of a child may read alike.
std::vector<followup::ReferralId> trackedReferrals(const TermView& view, base::Date today);

/// What one urgency, or all, come to. Counts are referrals.
struct ReferralCounts {
  int made = 0;
  int reached = 0;  ///< a guardian was spoken to or wrote back since
  int complete = 0; ///< treated, or a dentist found no need
  int started = 0;
  int declined = 0;
  int moved = 0;
  int lost = 0; ///< after attempts
  int open = 0;
  int openLong = 0; ///< of open or started: longer than `longOpen`

  [[nodiscard]] int seen() const { return complete + started; }
};
/// Common practice, no source.
inline constexpr int longOpen = 60;

/// None: of every urgency.
ReferralCounts referralCounts(const TermView& view, base::Date today,
                              std::optional<chairside::Urgency> urgency);

} // namespace gk::reports
