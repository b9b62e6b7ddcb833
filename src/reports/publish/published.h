#pragma once

#include "reports/print/table.h"
#include "reports/publish/published_counts.h"

namespace gk::reports {

/// What may leave the program, and what it tells.
struct Published {
  std::vector<Table> tables{};      ///< participation, services, findings, retention
  std::optional<Table> byGrade{};   ///< as `addGrades` adds it
  std::optional<Table> shortTerm{}; ///< as `addShortTerm`
  std::vector<Table> students{};    ///< as `addStudents`, one for each question answered
  std::optional<Table> referrals{}; ///< as `addReferrals`
  Release release{};
  int counts = 0;  ///< in all tables
  int hidden = 0;  ///< of them: not shown as a number
  int exposed = 0; ///< small counts within reach all the same: it may not go out
};

/// Small numbers suppressed, rates built on them too, each table with its footnote. `earlier` are
/// the releases of this term and of others, oldest first; where nothing was counted again since the
/// last one with these rows, what it showed is shown again. Schools of a group are one row.
///
/// Where what went out, of this term or another, lets no pattern of hiding stand by school, the
/// smallest schools are one row, then all; where even that would not do, the retention table is
/// left out. It says so.
Published publish(const TermTotals& totals, const SuppressionRule& rule = {},
                  std::span<const Release> earlier = {}, const Groups& groups = {},
                  Findings findings = Findings::among);

/// Whether a count of this row is not shown as a number.
bool hidesIn(const Cells& row);

/// "12", "fewer than 10" or "suppressed".
Cell shownCount(int value, Showing showing, const SuppressionRule& rule);

/// The schools that the newest release showed as one.
Groups groupsIssued(std::span<const Release> earlier);

/// The smallest schools as one group, as few of them as make the share of hidden counts smaller
/// than it is school by school; none where no such group does.
Groups groupsToOffer(const TermTotals& totals, const SuppressionRule& rule,
                     std::span<const Release> earlier = {});

} // namespace gk::reports
