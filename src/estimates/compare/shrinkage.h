#pragma once

#include "estimates/compare/funnel.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// Fewer units than these do not tell how much units differ, so that reports adjust none of them
/// (Morris 1983 draws nothing toward the mean of three).
inline constexpr std::size_t fewestToAdjust = 4;

enum class ShrinkageNote {
  /// A unit alone has no others to be drawn toward: nothing is shrunk.
  oneUnit,
  /// The units differ no more than chance makes them: the likelihood rises all the way to no spread
  /// (alpha and beta grow without bound), and every unit is shown at the common share.
  noOverdispersion,
  /// All or none kept everywhere; likewise.
  allOrNone,
  /// Every unit is all or none: the likelihood rises to alpha = beta = 0, and nothing is shrunk.
  eachAllOrNone,
  /// Fewer than `fewestClusters` units: alpha and beta are poorly known.
  fewUnits,
  /// Units without a tooth examined stand at the mean.
  emptyUnits,
};

struct ShrunkenUnit {
  std::optional<double> raw; ///< kept / examined; none without a tooth
  double shrunken;           ///< (kept + alpha) / (examined + alpha + beta)
  double ownWeight;          ///< examined / (examined + alpha + beta)
};

struct Shrinkage {
  double mean; ///< alpha / (alpha + beta), or its limit
  /// 1 / (alpha + beta + 1): the likeness of two teeth of one unit, from 0 to 1.
  double overdispersion;
  std::optional<double> alpha; ///< none in each limit above
  std::optional<double> beta;
  double logLikelihood;            ///< at the maximum, without the binomial coefficients
  std::vector<ShrunkenUnit> units; ///< in the order given
  std::vector<ShrinkageNote> notes;

  [[nodiscard]] bool has(ShrinkageNote note) const;
};

/// Beta-binomial empirical Bayes: alpha and beta maximise the marginal likelihood of the units
/// themselves (Griffiths 1973, Biometrics 29:637-48), and each unit is drawn toward the mean by as
/// much as its own teeth are few. Shown beside the raw share, never instead of it. No interval is
/// given: one that takes alpha and beta as known is too narrow. Counts may be fractional, as
/// effective ones are; the log-likelihood is then interpolated between whole counts. Fails with
/// `estimateInput`, naming the unit by its place from 1, for counts that are negative, not finite,
/// above a million or with more kept than examined, and when nothing was examined.
base::Result<Shrinkage> shrunken(std::span<const Unit> units);

} // namespace gk::estimates
