#pragma once

#include "reports/print/table.h"
#include "reports/term/term_totals.h"

namespace gk::reports {

/// What this term's sealants may spare under a what-if: the estimate, low and high scenarios, what
/// each input alone would change, and the money when costs were given.
std::vector<Table> preventionReport(const TermTotals& totals, const WhatIf& whatIf = {});

} // namespace gk::reports
