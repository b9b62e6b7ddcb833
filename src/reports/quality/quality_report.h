#pragma once

#include "reports/compare/retention_report.h"
#include "reports/quality/light_charts.h"

namespace gk::reports {

/// Signals that ask for a look: each light's output against its own baseline, lots and people whose
/// sealants depart from the program, and how often a field did not stay dry or a cure was cut
/// short. For use inside the program.
std::vector<Table> qualityReport(const TermView& view, const ComparisonOptions& options = {});

/// Every reading of one light with its average and limits.
Table lightTable(const LightChart& light);

} // namespace gk::reports
