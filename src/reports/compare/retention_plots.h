#pragma once

#include "reports/compare/factor_comparison.h"
#include "reports/print/plot.h"
#include "reports/retention/retention_curve.h"

namespace gk::reports {

/// None where there is nothing to draw.

/// Share whole of each line with its range, against all together.
std::optional<Plot> linesPlot(const std::vector<RetentionLine>& lines, Factor factor,
                              const RetentionLine& total);
std::optional<Plot> rangePlot(const FactorComparison& compared);
/// Share whole against number of teeth, with the limits that chance alone would keep to.
std::optional<Plot> funnelPlot(const FactorComparison& compared);
/// Share still whole over the years, with its band, and the worst case.
std::optional<Plot> curvePlot(const RetentionCurve& usual, const RetentionCurve& worst);

} // namespace gk::reports
