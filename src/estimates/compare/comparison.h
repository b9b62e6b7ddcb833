#pragma once

#include "estimates/shares/proportion.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// Teeth of one stratum, such as upper first molars. `exposed` is the method or operator in
/// question and `other` what it is held against; `kept` is the outcome, such as fully retained.
struct Stratum {
  double exposedKept;
  double exposedLost;
  double otherKept;
  double otherLost;
};

enum class ComparisonNote {
  /// Strata without a tooth were skipped.
  emptyStrata,
  /// Strata with a zero margin (one side or one outcome alone) say nothing and added 0.
  uninformativeStrata,
  /// No stratum says anything: no odds ratio and no test.
  nothingToCompare,
  /// Mantel and Fleiss 1980, Am J Epidemiol 112:129-34: the expected count is within 5 of the
  /// least or most possible, so the chi-squared and the interval are not to be trusted.
  smallNumbers,
  /// The odds ratio is 0 and has no interval here.
  oddsRatioZero,
  /// The odds ratio has no upper bound; `oddsRatio` and `interval` are empty.
  oddsRatioUnbounded,
  /// One of several comparisons: read `adjustedP`.
  severalComparisons,
};

struct Comparison {
  /// Mantel and Haenszel 1959; above 1 the exposed kept more.
  std::optional<double> oddsRatio;
  /// Of log(oddsRatio), for independent teeth: Robins, Breslow and Greenland 1986.
  std::optional<double> logVariance;
  std::optional<Interval> interval;
  /// One degree of freedom, continuity correction of a half where the difference is that large.
  std::optional<double> chiSquared;
  std::optional<double> p;         ///< of chiSquared
  std::optional<double> adjustedP; ///< Holm; from `compareSeveral` with two or more
  std::size_t strata;              ///< with a tooth in them
  std::size_t informativeStrata;   ///< with no zero margin
  double teeth;
  std::vector<ComparisonNote> notes;

  [[nodiscard]] bool has(ComparisonNote note) const;
};

/// Mantel-Haenszel over strata, as R's mantelhaen.test. Teeth count as independent, which teeth in
/// one mouth are not: `compareClustered` stands beside it. It is observational: operators and
/// methods were not drawn by lot. Fails with `estimateInput`, naming the stratum by its place from
/// 1, for a count that is negative, not whole or not finite; when no stratum has a tooth; and for a
/// level outside 0.5 to 0.9999.
base::Result<Comparison> compare(std::span<const Stratum> strata, double level = usualLevel);

/// Each table by `compare`; from two on with Holm's p over those that have one. The error names
/// the comparison by its place from 1.
base::Result<std::vector<Comparison>>
compareSeveral(std::span<const std::vector<Stratum>> comparisons, double level = usualLevel);

} // namespace gk::estimates
