#pragma once

#include "reports/day/close_out.h"
#include "reports/print/table.h"

namespace gk::reports {

/// The close-out sheet, in the order in which a coordinator asks: can we leave, what blocks, who
/// must be called, each child, unfinished teeth, exceptions, counts, supplies, letters,
/// referrals, return visits.
/// It names children: for the team, and counted out and in when printed.
std::vector<Table> closeOutTables(const CloseOut& day);

} // namespace gk::reports
