#pragma once

#include "reports/publish/published.h"

namespace gk::reports {

/// The rows of a table by grade, in order: `school` is the grade, "K" or "3". Students enrolled are
/// known of all grades or of none.
std::vector<Participation> participationByGrade(const TermView& view, const TermTotals& totals);

/// Adds participation by grade, neighboring grades as one row, to what is published of these
/// totals by school. Left out, as the annex then says, where a total is hidden in either table,
/// since one would give the other away, and where its words would tell too much.
///
/// `bands` empty: as this term's newest table by grade had them, else as `bandsToShow`.
void addGrades(Published& published, const std::vector<Participation>& grades,
               const TermTotals& totals, const SuppressionRule& rule,
               std::span<const Release> earlier = {},
               const std::optional<GradeBands>& bands = std::nullopt);

/// Neighbors merged one pair at a time, each time the pair that leaves the most numbers above
/// zero shown less what is hidden, of equals the fewest hidden; of the bands on that way those
/// that do so best, of equals the most bands. Empty: each by itself.
GradeBands bandsToShow(const std::vector<Participation>& grades, const Participation& total,
                       const SuppressionRule& rule, std::span<const Release> earlier = {});

/// The grades of each band that this term has, and each other grade by itself.
Groups gradeGroups(const std::vector<Participation>& grades, const GradeBands& bands);

} // namespace gk::reports
