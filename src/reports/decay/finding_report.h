#pragma once

#include "reports/decay/attack_by_school.h"
#include "reports/decay/finding_measures.h"
#include "reports/print/table.h"

namespace gk::reports {

/// What the screenings of the term found, school by school, and the yearly attack rate behind it.
/// For use inside the program: small counts are not suppressed.
std::vector<Table> findingReport(const TermView& view);

Table findingTable(const FindingTotals& totals);
Table attackTable(const AttackBySchool& attack);

} // namespace gk::reports
