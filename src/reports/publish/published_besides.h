#pragma once

#include "reports/publish/published.h"

namespace gk::reports {

/// Adds the short-term checks of all schools together, where any was made and none of the small
/// counts would be within reach.
void addShortTerm(Published& published, const TermTotals& totals, const SuppressionRule& rule,
                  std::span<const Release> earlier);

/// Adds who the children screened are; left out where so few are told apart that any table would
/// give one away. Precondition: the table by school shows how many were screened in all.
void addStudents(Published& published, const TermTotals& totals, const SuppressionRule& rule,
                 std::span<const Release> earlier);

} // namespace gk::reports
