#pragma once

#include "reports/print/table.h"
#include "reports/records/inputs.h"
#include "reports/term/term_totals.h"

#include <string>
#include <utility>
#include <vector>

namespace gk::reports {

/// What the funder's summary and its annex both say.

/// The cell of the last row, which is the total, under this heading.
std::string totalUnder(const Table& table, std::string_view heading);

/// "September 8, 2026 to November 17, 2026".
std::string periodWords(const TermTotals& totals);

int lotsSetAside(const TermRecords& records);

/// "yes" or "NO" for a share that was printed as per cent; a dash where there is none.
std::string reached(double target, const std::string& actual);

/// The estimates of decay spared, each with its name. What the unchecked teeth could change tells
/// how many were checked, and stands only where the published tables tell it.
std::vector<std::pair<std::string, std::string>>
sparedFigures(const TermTotals& totals, bool teethAreShown, bool checksAreShown);

} // namespace gk::reports
