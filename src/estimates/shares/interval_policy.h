#pragma once

#include "estimates/shares/proportion.h"

#include <cstddef>
#include <optional>

namespace gk::estimates {

/// How alike the teeth of one child are taken to be (intraclass correlation) where the figures at
/// hand cannot say: all or none retained, or few clusters that came out more even than chance. A
/// planning value from memory; docs/methods.md shows what others would change.
inline constexpr double plannedLikeness = 0.05;

/// From this many clusters on a design effect under 1 is read as 1 and not as planned.
inline constexpr std::size_t clustersToTrust = 30;

/// Under this many clusters a reader is told that they are few.
inline constexpr std::size_t fewClustersToRead = 10;

/// What the interval of a share rests on.
struct ShareBasis {
  double share;
  double teeth; ///< or children, where each is one
  std::size_t clusters;
  double clusterSize;                 ///< sum of squares / sum: teeth in the cluster of a tooth
  std::optional<double> designEffect; ///< as found; none where all or none are retained
  std::optional<double> pooled = std::nullopt; ///< the program's own, where it is known
};

struct PolicyInterval {
  double designEffect; ///< as used
  double n;            ///< effective, after the correction for few clusters
  bool isPlanned;      ///< the likeness is not from these figures
  Interval range;
};

/// The one interval of every share that a person reads: Korn and Graubard 1998 (Surv Methodol
/// 24:193-201), that is Clopper and Pearson on the effective number, cut by (t(n - 1) / t(m - 1))^2
/// for few clusters and never above n. Where the design effect cannot be found or trusted it is the
/// program's or 1 + (size - 1) `plannedLikeness`, whichever is larger. None under two clusters.
/// Its simulated coverage stands in docs/methods.md. Precondition: a share of some teeth.
std::optional<PolicyInterval> intervalToRead(const ShareBasis& basis, double level = usualLevel);

} // namespace gk::estimates
