#pragma once

#include "estimates/compare/control_chart.h"
#include "reports/records/inputs.h"

#include <optional>

namespace gk::reports {

/// One light's meter readings against its own baseline, by date. Readings on another meter, or with
/// the sleeve otherwise, are not comparable and only counted.
struct LightChart {
  kit::LightId light;
  std::string tag;
  int baseline = 0;    ///< mW/cm2
  int makersLeast = 0; ///< mW/cm2; 0 when the maker names none
  std::vector<base::Date> dates;
  std::vector<double> readings;        ///< mW/cm2, one for each date
  std::vector<kit::LightGrade> grades; ///< of each reading
  /// One point for each date after those of the baseline; none before.
  std::optional<estimates::ControlChart> chart;
  double mean = 0; ///< of the first `baselineReadings`, mW/cm2: what the chart is held against
  int notComparable = 0;
};

/// A hand-held meter is not taken to repeat closer than this share of the baseline (from memory,
/// not published): else a steady light that settles 2 % under its baseline raises an alarm for
/// ever.
inline constexpr double meterRepeatability = 0.03;

/// Readings that the chart's own baseline is the mean of: one alone is as far off as any reading.
inline constexpr std::size_t baselineReadings = 5;

/// Up to the date of the report, by tag; of a light that was entered again, as after a new lamp,
/// the readings since. The chart is an exponentially weighted moving average about the mean of the
/// first `baselineReadings`, with limits that allow for the error of that mean; the spread of one
/// reading is from the moving range of all of them, which a slow fall hardly widens, and at least
/// `meterRepeatability`.
std::vector<LightChart> lightCharts(const TermRecords& records);

} // namespace gk::reports
