#pragma once

namespace gk::reports {

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
} // namespace gk::reports
