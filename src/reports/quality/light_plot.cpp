#include "reports/quality/light_plot.h"

#include "base/text/text.h"

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

/// Of the readings the last and the one of the first signal are named; the others stand in their
/// order.
std::string nameOf(const LightChart& light, std::size_t reading) {
  const auto& chart = *light.chart;
  if (reading == chart.firstSignal) return light.dates[baselineReadings + reading].shortWords();
  return reading + 1 == chart.points.size() ? base::fixed(chart.points[reading].reading, 0) : "";
}

} // namespace

std::optional<Plot> lightPlot(const LightChart& light) {
  if (!light.chart || light.chart->points.empty()) return std::nullopt;
  PlotSeries readings{"reading", PlotMark::rings, {}};
  PlotSeries average{"weighted average", PlotMark::line, {}};
  PlotSeries low{"limits of the average", PlotMark::dashed, {}};
  PlotSeries high{"", PlotMark::dashed, {}};
  PlotSeries red{"red: 20% under the baseline", PlotMark::dotted, {}};
  double least = 0.8 * light.baseline;
  double most = light.baseline;
  const auto& points = light.chart->points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto x = static_cast<double>(baselineReadings + i + 1);
    readings.points.push_back({x, points[i].reading});
    readings.said.push_back(nameOf(light, i));
    average.points.push_back({x, points[i].average});
    low.points.push_back({x, points[i].low});
    high.points.push_back({x, points[i].high});
    least = std::min(least, points[i].reading);
    most = std::max({most, points[i].reading, points[i].high});
  }
  const auto last = static_cast<double>(light.dates.size());
  red.points = {{1, 0.8 * light.baseline}, {last, 0.8 * light.baseline}};
  const auto& signal = light.chart->firstSignal;
  return Plot{"Light " + light.tag + " after its first five readings, of " +
                  base::fixed(light.mean, 0) + " mW/cm² on average: " +
                  (signal
                       ? "first signal on " + light.dates[baselineReadings + *signal].words() + "."
                       : "no signal."),
              {"Reading, oldest first (" + light.dates.front().shortWords() + " to " +
                   light.dates.back().shortWords() + ")",
               0.5, last + 0.5},
              {"mW/cm²", std::floor(least / 50) * 50 - 50, std::ceil(most / 50) * 50},
              {low, high, red, average, readings}};
}

} // namespace gk::reports
