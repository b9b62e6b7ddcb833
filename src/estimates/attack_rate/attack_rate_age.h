#pragma once

#include "estimates/attack_rate/attack_rate.h"

#include <array>

namespace gk::estimates {

/// Years since eruption at which one band ends and the next begins.
inline constexpr std::array usualBandEdges{1.0, 2.0, 3.0};

/// Molars whose time in the mouth is in [from, until).
struct RiskBand {
  double from;
  std::optional<double> until; ///< none: to the last
  AttackRateEstimate rate;     ///< of this band alone
};

enum class RiskWithAge {
  cannotTell, ///< under two bands with a molar, no child or all children affected, or few children
  looksConstant,
  differs,
  falls, ///< differs, and each band's rate is below that of the band before
  rises,
};

struct RiskByAge {
  std::vector<RiskBand> bands; ///< with a molar, by time
  std::size_t degrees;         ///< bands - 1, or 0
  /// Twice the gain in log-likelihood from a rate for each band; counts molars as independent.
  std::optional<double> likelihoodRatio;
  std::optional<double> likelihoodRatioP;
  /// The same divided by the child-clustered design effect of the common rate, at least 1 (Rao and
  /// Scott 1984). None with one child. The one to print: it holds its level with few affected
  /// children, where the score test below calls too much.
  std::optional<double> clusteredRatio;
  std::optional<double> clusteredRatioP;
  /// Generalised score test, clustered by child (Rotnitzky and Jewell 1990, Biometrika 77:485-97),
  /// with the factor m/(m-1): for large programs, where children differ in how alike their molars
  /// are. None when its variance cannot be inverted.
  std::optional<double> robustScore;
  std::optional<double> robustScoreP;
  RiskWithAge verdict; ///< by `clusteredRatioP` at the 5 % level
};

/// Whether one yearly rate fits molars of every age: the same model with a rate for each band of
/// time in the mouth, against one rate. A screening sees each molar once, so a band's rate is the
/// average over its time in the mouth, not the rate at that age. Fails as `attackRate` does, and
/// with `estimateInput` for edges that are not finite, not above `shortestExposure` or do not rise.
base::Result<RiskByAge> riskByAge(std::span<const Exposure> rows,
                                  std::span<const double> edges = usualBandEdges,
                                  double level = usualLevel);

} // namespace gk::estimates
