#pragma once

#include "reports/print/cells.h"
#include "reports/retention/retention_totals.h"

namespace gk::reports {

/// Which of a retention line's numbers.
enum class SealantCount : int {
  placed,
  due,
  examined,
  assessable,
  whole,
  part,
  lost,
  cannotAssess
};

/// For the lines of `retentionBy`; hidden lines say so.
Table retentionTable(std::string_view title, const std::vector<RetentionLine>& lines);

// Its parts, for tables that say more beside it.
Table emptyRetentionTable(std::string title);
/// Known by its code of the factor that the lines are by.
Cell labelCell(const RetentionLine& line);
void addRetentionRow(Table& table, const RetentionLine& line);
void addRetentionCautions(Table& table, const std::vector<RetentionLine>& lines);

} // namespace gk::reports
