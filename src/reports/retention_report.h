#pragma once

#include "reports/factor_comparison.h"
#include "reports/retention_curve.h"
#include "reports/table.h"

namespace gk::reports {

struct RetentionReportOptions {
  ComparisonOptions comparison{};
  CurveOptions curve{};
  std::optional<roster::SchoolId> school{}; ///< placed at; all when empty
};

/// How the sealants that fell due held: schools against the program, the curve over time, each
/// factor against the rest, and what those not examined could change. For use inside the program.
std::vector<Table> retentionReport(const TermRecords& records,
                                   const RetentionReportOptions& options = {});

} // namespace gk::reports
