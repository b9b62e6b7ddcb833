#pragma once

#include "estimates/averted/averted.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

enum class ScenarioInput {
  attackRate,
  retentionYearOne,
  efficacy,
  relativeRiskAfterLoss,
  curve,
  years,
};

/// What is doubted, each with its two ends; what is absent stays at its base value. The ends need
/// not be a statistical interval, and the base value should lie between them.
struct ScenarioRanges {
  std::optional<Interval> attackRate = std::nullopt;
  std::optional<Interval> retentionYearOne = std::nullopt;
  std::optional<Interval> efficacy = std::nullopt;
  std::optional<Interval> relativeRiskAfterLoss = std::nullopt;
  std::vector<double> lowCurve = {}; ///< both given or both empty
  std::vector<double> highCurve = {};
  std::optional<int> fewestYears = std::nullopt; ///< both given or neither
  std::optional<int> mostYears = std::nullopt;
};

/// One bar of a tornado: a single input moved, the others at base.
struct ScenarioBar {
  ScenarioInput input;
  double atLow;  ///< teeth averted with the input at its low end
  double atHigh; ///< and at its high end; may be the smaller of the two
  [[nodiscard]] double swing() const { return atHigh > atLow ? atHigh - atLow : atLow - atHigh; }
};

struct Scenarios {
  AvertedEstimate low; ///< the fewest and the most averted over all combinations of the ends
  AvertedEstimate base;
  AvertedEstimate high;
  AvertedInputs lowInputs; ///< what was put in for them
  AvertedInputs highInputs;
  std::vector<ScenarioBar> bars; ///< longest first
};

/// Scenarios, not a confidence interval: nothing says how likely all the ends are together. Low and
/// high include the base. Fails as `averted` does, with the input named, for ends that are not low
/// to high or do not hold the base value, one curve or one count of years without the other, and
/// when nothing is doubted.
base::Result<Scenarios> avertedScenarios(const AvertedInputs& base, const ScenarioRanges& ranges);

/// A program's own retention by year as the averted model takes it.
struct OwnRetention {
  double yearOne;
  std::vector<double> curve; ///< f(t) = S(t) / S(1)
  int yearsCarriedOn;        ///< at the end, beyond the data
};

/// From S(1), S(2), ... of the program's own survival curve. Years beyond the data lose 0.05 of the
/// first year's retention each, as `defaultRetentionCurve` does. Fails with `estimateInput` for an
/// empty curve, a share outside [0, 1], one that rises, S(1) = 0, and years outside 0 to 100.
base::Result<OwnRetention> ownRetention(std::span<const double> survival, int years);

} // namespace gk::estimates
