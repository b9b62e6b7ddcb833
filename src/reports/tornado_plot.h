#pragma once

#include "reports/plot.h"
#include "reports/prevention.h"

namespace gk::reports {

/// What each input alone would change. None where there is nothing to draw.
std::optional<Plot> tornadoPlot(const ScenarioReport& report, const std::string& baseWords);

} // namespace gk::reports
