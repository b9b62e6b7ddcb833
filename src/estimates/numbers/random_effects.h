#pragma once

#include <vector>

namespace gk::estimates {

/// Estimates with known variances around one mean, with a further variance between them.
struct NormalUnit {
  double estimate;
  double variance; ///< above 0
};

struct RandomEffects {
  double mean;
  double variance; ///< of the mean: 1 / sum of 1 / (variance + tauSquared)
  /// `variance` times max(1, the weighted mean square about the mean): Hartung and Knapp 2001, Stat
  /// Med 20:3875-89, never narrowed. `variance` with one unit.
  double adjustedVariance;
  double tauSquared;        ///< restricted maximum likelihood
  double tauSquaredMoments; ///< DerSimonian and Laird 1986, Control Clin Trials 7:177-88
  double q;                 ///< Cochran's heterogeneity
};

/// Precondition: not empty. With one unit both tauSquared are 0.
RandomEffects randomEffects(const std::vector<NormalUnit>& units);

} // namespace gk::estimates
