#pragma once

#include "reports/attack_by_school.h"
#include "reports/finding_measures.h"
#include "reports/table.h"

namespace gk::reports {

/// What the screenings of the term found, school by school, and the yearly attack rate behind it.
/// For use inside the program: small counts are not suppressed.
std::vector<Table> findingReport(const TermRecords& records);

Table findingTable(const FindingTotals& totals);
Table attackTable(const AttackBySchool& attack);

} // namespace gk::reports
