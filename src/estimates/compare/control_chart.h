#pragma once

#include "base/result.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// Twenty readings or more are asked for to set limits (Montgomery, Introduction to Statistical
/// Quality Control, chapter 6).
inline constexpr std::size_t wantedReadings = 20;

enum class ChartNote {
  /// Fewer than `wantedReadings` stand behind the baseline: the limits are unsure.
  fewReadings,
  /// The baseline readings do not differ, so any change at all is a signal.
  noSpread,
};

/// What one light reads, on one and the same meter, while it is known to be in order.
struct LightBaseline {
  double mean;
  double deviation; ///< one reading's standard deviation, 0 or more
  std::size_t readings;
};

/// Mean, and the average moving range times sqrt(pi)/2 (that is over d2 = 1.128), which a slow
/// drift in the baseline inflates less than the plain deviation. Any unit. Readings in order of
/// time. Fails with `estimateInput` for fewer than 2 readings, and, naming the reading by its place
/// from 1, for one that is negative, not finite or above a thousand million.
base::Result<LightBaseline> lightBaseline(std::span<const double> readings);

/// Roberts 1959, Technometrics 1:239-50. The defaults are Montgomery's usual choice: with these,
/// and a baseline known without error, an undisturbed light gives about one false alarm in 550
/// readings. About the mean of a few readings that is far from true: see `countsBaselineError`.
struct ChartSettings {
  double lambda = 0.2; ///< weight of the newest reading
  double width = 3;    ///< half-width of the limits in deviations of the average
  /// The baseline's mean is of `LightBaseline::readings` readings, and the limits allow for its
  /// error.
  bool countsBaselineError = false;
};

enum class ChartSignal { none, below, above };

struct ChartPoint {
  double reading;
  double average; ///< exponentially weighted, from the baseline mean
  double low;     ///< limits of the average at this reading; they widen to a steady state
  double high;
  ChartSignal signal;
};

struct ControlChart {
  std::vector<ChartPoint> points;
  std::optional<std::size_t> firstSignal; ///< index in points
  std::vector<ChartNote> notes;

  [[nodiscard]] bool has(ChartNote note) const;
};

/// The readings after the baseline, in order of time; no reading is an empty chart. After a signal
/// the chart runs on: a new lamp or battery needs a new baseline. Fails with `estimateInput` for
/// readings as `lightBaseline` does, a baseline whose numbers are negative or not finite, lambda
/// not above 0 or above 1, and a width not above 0 or above 10.
base::Result<ControlChart> ewmaChart(const LightBaseline& baseline,
                                     std::span<const double> readings, ChartSettings settings = {});

} // namespace gk::estimates
