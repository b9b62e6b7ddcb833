#include "estimates/compare/control_chart.h"

#include "estimates/numbers/checks.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace gk::estimates {
namespace {

base::Result<base::Done> checkReadings(std::span<const double> readings) {
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (auto checked = checkCount("Reading " + std::to_string(i + 1), readings[i]); !checked)
      return checked;
  return base::Done{};
}

base::Result<base::Done> checkSettings(const ChartSettings& settings) {
  if (!(settings.lambda > 0 && settings.lambda <= 1))
    return refused("The chart's lambda is " + shown(settings.lambda) +
                   "; give a weight above 0 and up to 1, such as 0.2.");
  if (settings.width > 0 && settings.width <= 10) return base::Done{};
  return refused("The chart's width is " + shown(settings.width) +
                 "; give a number of deviations above 0 and up to 10, such as 3.");
}

} // namespace

bool ControlChart::has(ChartNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<LightBaseline> lightBaseline(std::span<const double> readings) {
  if (auto checked = checkReadings(readings); !checked) return checked.error();
  if (readings.size() < 2)
    return refused("The baseline has " + std::to_string(readings.size()) +
                   " readings; take at least 2, and 20 for limits to rely on.");
  double sum = readings[0];
  double ranges = 0;
  for (std::size_t i = 1; i < readings.size(); ++i) {
    sum += readings[i];
    ranges += std::fabs(readings[i] - readings[i - 1]);
  }
  const auto count = static_cast<double>(readings.size());
  // The mean range of two normal readings is 2 / sqrt(pi) deviations.
  const double perRange = std::sqrt(std::numbers::pi) / 2;
  return LightBaseline{sum / count, perRange * ranges / (count - 1), readings.size()};
}

base::Result<ControlChart> ewmaChart(const LightBaseline& baseline,
                                     std::span<const double> readings, ChartSettings settings) {
  if (auto checked = checkCount("The baseline's mean", baseline.mean); !checked)
    return checked.error();
  if (auto checked = checkCount("The baseline's deviation", baseline.deviation); !checked)
    return checked.error();
  if (auto checked = checkReadings(readings); !checked) return checked.error();
  if (auto checked = checkSettings(settings); !checked) return checked.error();

  ControlChart out;
  if (baseline.readings < wantedReadings) out.notes.push_back(ChartNote::fewReadings);
  if (baseline.deviation == 0) out.notes.push_back(ChartNote::noSpread);
  const double lambda = settings.lambda;
  const double width = settings.width;
  const double rounding = 1e-9 * baseline.mean; // so that it alone never signals
  double average = baseline.mean;
  double carried = 1; // (1 - lambda)^(2i)
  for (const double reading : readings) {
    average += lambda * (reading - average);
    carried *= (1 - lambda) * (1 - lambda);
    // The average leaves the baseline's mean, and with it its error, by this share.
    const double left = 1 - std::sqrt(carried);
    const double ofBaseline = settings.countsBaselineError && baseline.readings > 0
                                  ? left * left / static_cast<double>(baseline.readings)
                                  : 0;
    const double reach =
        width * baseline.deviation * std::sqrt(lambda / (2 - lambda) * (1 - carried) + ofBaseline);
    ChartPoint point{reading, average, baseline.mean - reach, baseline.mean + reach,
                     ChartSignal::none};
    if (average < point.low - rounding) point.signal = ChartSignal::below;
    if (average > point.high + rounding) point.signal = ChartSignal::above;
    if (point.signal != ChartSignal::none && !out.firstSignal) out.firstSignal = out.points.size();
    out.points.push_back(point);
  }
  return out;
}

} // namespace gk::estimates
