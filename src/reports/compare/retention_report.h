#pragma once

#include "reports/compare/factor_comparison.h"
#include "reports/print/table.h"
#include "reports/retention/retention_curve.h"

namespace gk::reports {

struct RetentionReportOptions {
  ComparisonOptions comparison{};
  CurveOptions curve{};
  std::optional<roster::SchoolId> school{}; ///< placed at; all when empty
};

/// How the sealants that fell due held: schools against the program, the curve over time, each
/// factor against the rest, and what those not examined could change. For use inside the program.
std::vector<Table> retentionReport(const TermView& view,
                                   const RetentionReportOptions& options = {});

} // namespace gk::reports
