#pragma once

#include "reports/print/table.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// Counts of each date, provider, service and payer, for the office that bills: no child, no fee,
/// no claim. For use inside the program, since many of them are small.
std::vector<Table> payerReport(const TermView& view);

} // namespace gk::reports
