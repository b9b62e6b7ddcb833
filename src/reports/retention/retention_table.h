#pragma once

#include "reports/print/cells.h"
#include "reports/retention/retention_totals.h"

#include <string_view>

namespace gk::reports {

/// For the lines of `retentionBy`; hidden lines say so.
Table retentionTable(std::string_view title, const std::vector<RetentionLine>& lines);

// Its parts, for tables that say more beside it.
Table emptyRetentionTable(std::string title);
Cells retentionRow(const RetentionLine& line);
void addRetentionCautions(Table& table, const std::vector<RetentionLine>& lines);

} // namespace gk::reports
