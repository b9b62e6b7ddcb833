#pragma once

#include "estimates/control_chart.h"
#include "reports/inputs.h"

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
  std::vector<kit::LightGrade> grades;          ///< of each reading
  std::optional<estimates::ControlChart> chart; ///< one point a date; none under two readings
  int notComparable = 0;
};

/// A hand-held meter is not taken to repeat closer than this share of the baseline (from memory,
/// not published): else a steady light that settles 2 % under its baseline raises an alarm for
/// ever.
inline constexpr double meterRepeatability = 0.03;

/// Up to the date of the report, by tag. The chart is an exponentially weighted moving average
/// about the recorded baseline; the spread of one reading is from the moving range of all of them,
/// which a slow fall hardly widens, and at least `meterRepeatability`.
std::vector<LightChart> lightCharts(const TermRecords& records);

} // namespace gk::reports
