#pragma once

#include "reports/published.h"

namespace gk::reports {

/// Adds participation by grade, neighbouring grades as one row, to what is published of these
/// totals by school. Left out, as the annex then says, where a total is hidden in either table:
/// one would give the other away.
///
/// `bands` empty: as this term's newest table by grade had them, else as `bandsToShow`.
void addGrades(Published& published, const TermRecords& records, const TermTotals& totals,
               const SuppressionRule& rule, std::span<const Release> earlier,
               const std::optional<GradeBands>& bands);

/// The rows of a table by grade, in order: `school` is the grade, "K" or "3".
std::vector<Participation> participationByGrade(const TermRecords& records,
                                                const TermTotals& totals);

/// Neighbours merged one pair at a time, each time the pair that leaves the most counts shown; of
/// the bands on that way those that show most, of equals the most bands. Empty: each by itself.
GradeBands bandsToShow(const std::vector<Participation>& grades, const Participation& total,
                       const SuppressionRule& rule, std::span<const Release> earlier);

} // namespace gk::reports
