#include "reports/light_charts.h"

#include <algorithm>

namespace gk::reports {

namespace {

LightChart chartOf(const base::Recorded<kit::Light>& light, const TermRecords& records) {
  LightChart out{
      light.id, light.value.tag, light.value.baseline.value, light.value.makersLeast.value, {},
      {},       std::nullopt};
  std::vector<const base::Recorded<kit::MeterReading>*> readings;
  for (const auto& row : records.readings) {
    if (row.value.light != light.id || row.value.on > records.asOf) continue;
    if (kit::grade(light.value, row.value) == kit::LightGrade::notComparable)
      ++out.notComparable;
    else
      readings.push_back(&row);
  }
  std::ranges::stable_sort(readings, {}, [](const auto* row) { return row->value.on; });
  std::vector<double> values;
  for (const auto* row : readings) {
    out.dates.push_back(row->value.on);
    out.grades.push_back(kit::grade(light.value, row->value));
    values.push_back(row->value.value.value);
  }
  auto baseline = estimates::lightBaseline(values);
  if (!baseline) return out; // fewer than two readings
  baseline->mean = out.baseline;
  baseline->deviation = std::max(baseline->deviation, meterRepeatability * out.baseline);
  if (auto chart = estimates::ewmaChart(*baseline, values)) out.chart = *std::move(chart);
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
