#pragma once

#include "reports/print/table.h"
#include "reports/records/inputs.h"
#include "reports/term/term_totals.h"

#include <string>
#include <utility>
#include <vector>

namespace gk::reports {

/// What the funder's summary and its annex both say.

/// The cell of the last row, which is the total, in the column that files call so.
const Cell& totalOf(const Table& table, std::string_view key);

/// "September 8, 2026 to November 17, 2026".
std::string periodWords(const TermTotals& totals);

int lotsSetAside(const TermRecords& records);

/// "yes" or "below" for a share of everybody; missing where there is none.
Cell reached(double target, const Cell& actual);
/// The same of retention, which is of those found: only where its whole CI is on one side, else
/// "unsure".
Cell reachedByCi(double target, const Cell& actual, const RetentionLine& line);

/// What the published services call the children sealed of those needing: all that were sealed, but
/// where some had not been screened.
std::string_view sealedOfNeeding(const Table& services);
std::string_view varnishOfScreened(const Table& services);
/// Whether each child that was sealed had been screened on these dates.
bool wereAllScreened(const Table& services);

/// The estimates of decay spared, each with its name. What the teeth not assessed could change
/// tells how many were checked, and stands only where the published tables tell it.
std::vector<std::pair<std::string, Cell>> sparedFigures(const TermTotals& totals,
                                                        bool teethAreShown, bool checksAreShown);

} // namespace gk::reports
