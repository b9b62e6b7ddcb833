#pragma once

#include "reports/print/table.h"
#include "reports/term/term_totals.h"

#include <span>

namespace gk::reports {

/// Terms side by side, the oldest first: participation, services and one-year retention with its
/// range, of the program and of each school, with a picture. No trend is tested: terms differ in
/// schools, grades and people.
std::vector<Table> termsReport(std::span<const TermTotals> terms);

} // namespace gk::reports
