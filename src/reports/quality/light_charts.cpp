#include "reports/quality/light_charts.h"

#include <algorithm>
#include <span>

namespace gk::reports {

namespace {

LightChart chartOf(const base::Recorded<kit::Light>& light, const TermRecords& records) {
  LightChart out{.light = light.id,
                 .tag = light.value.tag,
                 .baseline = light.value.baseline.value,
                 .makersLeast = light.value.makersLeast.value,
                 .dates = {},
                 .readings = {},
                 .grades = {},
                 .chart = std::nullopt};
  std::vector<const base::Recorded<kit::MeterReading>*> readings;
  for (const auto& row : records.readings) {
    if (row.value.light != light.id || row.value.on > records.asOf) continue;
    if (light.stamp.supersedes && row.value.on < light.stamp.at.date()) continue;
    if (kit::grade(light.value, row.value) == kit::LightGrade::notComparable)
      ++out.notComparable;
    else
      readings.push_back(&row);
  }
  std::ranges::stable_sort(readings, {}, [](const auto* row) { return row->value.on; });
  for (const auto* row : readings) {
    out.dates.push_back(row->value.on);
    out.grades.push_back(kit::grade(light.value, row->value));
    out.readings.push_back(row->value.value.value);
  }
  const std::span<const double> values(out.readings);
  if (values.size() <= baselineReadings) return out;
  const auto first = values.first(baselineReadings);
  const auto own = estimates::lightBaseline(first);
  const auto spread = estimates::lightBaseline(values);
  if (!own || !spread) return out; // no reading is negative
  out.mean = own->mean;
  const estimates::LightBaseline baseline{
      own->mean, std::max(spread->deviation, meterRepeatability * own->mean), baselineReadings};
  if (auto chart = estimates::ewmaChart(baseline, values.subspan(baselineReadings),
                                        {.countsBaselineError = true}))
    out.chart = *std::move(chart);
  return out;
}

} // namespace

std::vector<LightChart> lightCharts(const TermRecords& records) {
  std::vector<LightChart> out;
  for (const auto& light : records.lights)
    out.push_back(chartOf(light, records));
  std::ranges::stable_sort(out, {}, &LightChart::tag);
  return out;
}

} // namespace gk::reports
