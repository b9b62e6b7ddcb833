#include "reports/decay/tornado_plot.h"

#include "base/text/text.h"
#include "reports/decay/true_sentences.h"

#include <algorithm>

namespace gk::reports {

std::optional<Plot> tornadoPlot(const ScenarioReport& report, const std::string& baseWords) {
  if (!report.scenarios || report.scenarios->bars.empty()) return std::nullopt;
  std::vector<std::string> names;
  PlotSeries swings{"from its low to its high end", PlotMark::bars, {}};
  const double base = report.estimate->averted;
  double least = base;
  double most = base;
  for (const auto& bar : report.scenarios->bars) {
    const auto row = static_cast<double>(names.size());
    names.push_back(inputWords(bar.input));
    swings.points.push_back({bar.atLow, row});
    swings.ends.push_back({bar.atHigh, row});
    least = std::min({least, bar.atLow, bar.atHigh});
    most = std::max({most, bar.atLow, bar.atHigh});
  }
  const double room = std::max(1.0, (most - least) / 10);
  const auto axis = namedRows(std::move(names));
  return Plot{"Cavities averted as each input alone goes from its low to its high end, against " +
                  base::fixed(base, 0) + " " + baseWords + " (dashed).",
              {"Cavities averted", std::max(0.0, least - room), most + room},
              axis,
              {{baseWords, PlotMark::dashed, {{base, axis.low}, {base, axis.high}}}, swings}};
}

} // namespace gk::reports
