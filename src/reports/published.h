#pragma once

#include "reports/published_counts.h"
#include "reports/table.h"

namespace gk::reports {

/// What may leave the program, and what it tells.
struct Published {
  std::vector<Table> tables; ///< participation, services, findings, retention
  Release release;
  int hidden = 0;  ///< counts that are not shown as a number
  int exposed = 0; ///< small counts within reach all the same: it may not go out
};

/// Small numbers suppressed, rates built on them too, each table with its footnote. `earlier` are
/// the releases of this term, oldest first; where nothing was counted anew since the last one with
/// these rows, what it showed is shown again. Schools of a group are one row.
Published publish(const TermTotals& totals, const SuppressionRule& rule = {},
                  std::span<const Release> earlier = {}, const Groups& groups = {});

/// "12", "fewer than 10" or "withheld".
std::string shownCount(int value, Showing showing, const SuppressionRule& rule);

/// The smallest schools as one group, so many of them that fewest counts are hidden; none where no
/// such group hides fewer than the schools one by one.
Groups groupsToOffer(const TermTotals& totals, const SuppressionRule& rule,
                     std::span<const Release> earlier = {});

} // namespace gk::reports
