#pragma once

#include "reports/compare/factor_comparison.h"
#include "reports/print/table.h"

namespace gk::reports {

/// One factor: counts, ranges, each value against the rest, and its place in the funnel.
Table comparisonTable(const FactorComparison& compared);

} // namespace gk::reports
