#pragma once

#include "reports/light_charts.h"
#include "reports/plot.h"

namespace gk::reports {

/// Readings, their average and its limits, in order of time. None where there is nothing to draw.
std::optional<Plot> lightPlot(const LightChart& light);

} // namespace gk::reports
