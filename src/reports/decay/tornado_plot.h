#pragma once

#include "reports/decay/prevention.h"
#include "reports/print/plot.h"

namespace gk::reports {

/// What each input alone would change. None where there is nothing to draw.
std::optional<Plot> tornadoPlot(const ScenarioReport& report, const std::string& baseWords);

} // namespace gk::reports
