#pragma once

#include "reports/suppression.h"
#include "reports/table.h"
#include "reports/term_totals.h"

#include <span>

namespace gk::reports {

/// What may leave the program: participation, services, findings and retention with small numbers
/// suppressed, rates built on them too, each table with its footnote. `earlier` are
/// totals of this term that were published before under this rule, oldest first.
std::vector<Table> publishedTables(const TermTotals& totals, const SuppressionRule& rule = {},
                                   std::span<const TermTotals> earlier = {});

} // namespace gk::reports
