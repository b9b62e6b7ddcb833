#pragma once

#include "reports/print/table.h"
#include "reports/term/term_totals.h"

#include <span>

namespace gk::reports {

/// What stands side by side: terms, or years of one kind, in each of which a child counts once.
enum class SideBySide { terms, years };

/// Terms or years side by side, the oldest first: participation, services and one-year retention
/// with its range, of the program and of each school, with a picture. No trend is tested: they
/// differ in schools, grades and people. With a school, of it alone.
std::vector<Table> termsReport(std::span<const TermTotals> terms,
                               SideBySide what = SideBySide::terms,
                               std::optional<roster::SchoolId> school = std::nullopt);

} // namespace gk::reports
