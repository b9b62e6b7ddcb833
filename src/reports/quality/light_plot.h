#pragma once

#include "reports/print/plot.h"
#include "reports/quality/light_charts.h"

namespace gk::reports {

/// Readings, their average and its limits, in order of time. None where there is nothing to draw.
std::optional<Plot> lightPlot(const LightChart& light);

} // namespace gk::reports
