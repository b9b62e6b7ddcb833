#pragma once

#include "base/random.h"
#include "estimates/compare/comparison.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// One examined tooth. A child may have teeth on both sides and in several strata; the labels only
/// join rows. A school may stand in the place of the child.
struct ComparedTooth {
  std::size_t child;
  std::size_t stratum;
  bool exposed;
  bool kept;
};

inline constexpr std::size_t usualReplicates = 2000;

/// Percentiles of the odds ratio over children drawn with replacement (Efron and Tibshirani 1993).
struct Bootstrap {
  double low;                 ///< may be 0
  std::optional<double> high; ///< none: the odds ratio was unbounded in too many replicates
  std::size_t replicates;     ///< with an odds ratio, 0 and unbounded counted among them
  std::size_t withoutRatio;   ///< nothing to compare; left out
};

enum class ClusteredNote {
  /// One child: neither the clustered variance nor the bootstrap exists.
  oneChild,
  /// Fewer than `fewestCompared` children: both intervals are likely too narrow.
  fewChildren,
  /// More than one replicate in twenty had nothing to compare, or too many were unbounded for a
  /// bootstrap interval.
  manyWithoutRatio,
};

inline constexpr std::size_t fewestCompared = 30;

struct ClusteredComparison {
  Comparison teeth; ///< as if teeth were independent
  std::size_t children;
  /// Of log odds ratio, linearised by child with factor m/(m-1); none with one child or when the
  /// odds ratio is 0, unbounded or missing.
  std::optional<double> logVariance;
  std::optional<Interval> interval;   ///< from logVariance, Student's t on children - 1
  std::optional<double> p;            ///< of odds ratio 1, likewise
  std::optional<double> designEffect; ///< logVariance / teeth.logVariance
  std::optional<Bootstrap> bootstrap; ///< none where logVariance is none
  std::vector<ClusteredNote> notes;

  [[nodiscard]] bool has(ClusteredNote note) const;
};

/// The Mantel-Haenszel odds ratio with what child clusters make of its uncertainty: a linearised
/// interval and a bootstrap. The same seed gives the same answer; the order of rows is of no
/// account. Fails with `estimateInput` without a row, for fewer than 100 or more than 100,000
/// replicates, and for a level outside 0.5 to 0.9999.
base::Result<ClusteredComparison> compareClustered(std::span<const ComparedTooth> teeth,
                                                   base::Random& random,
                                                   std::size_t replicates = usualReplicates,
                                                   double level = usualLevel);

} // namespace gk::estimates
