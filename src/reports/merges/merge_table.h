#pragma once

#include "reports/print/table.h"
#include "reports/records/day_closing.h"

namespace gk::reports {

/// Before what the records do not say alike.
inline constexpr auto differsMark = "≠";

/// The records of a question side by side, tooth by tooth: a mark, what the line is about, and a
/// column for each side.
Table mergeTable(const MergeQuestion& question);

} // namespace gk::reports
