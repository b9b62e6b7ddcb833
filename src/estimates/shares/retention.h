#pragma once

#include "estimates/shares/interval_policy.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// The teeth of one child, or of one school: how many sealed teeth were examined (assessable) and
/// on how many the sealant counts as retained. Which definition of retained (fully, or fully and
/// partly) is the caller's. Whole numbers.
struct Cluster {
  double examined;
  double retained;
};

/// Below this many clusters the variance between them is itself poorly known.
inline constexpr std::size_t fewestClusters = 8;

enum class RetentionNote {
  /// One cluster says nothing of how alike its teeth are: they are taken as fully alike, so the
  /// intervals rest on one observation.
  oneCluster,
  /// Fewer than `fewestClusters`; the interval is likely too narrow.
  fewClusters,
  /// All or none retained: the teeth are taken as independent, and `conservative` is filled.
  allOrNone,
  /// The data gave a design effect below 1; 1 was used.
  designEffectRaised,
  /// Some clusters had no tooth examined and were passed over.
  emptyClusters,
};

struct RetentionEstimate {
  double estimate; ///< retained / examined, 0 to 1
  double low;      ///< Wilson on effectiveN; `toRead` is what a person reads
  double high;
  Interval publication; ///< Clopper-Pearson type (Korn and Graubard 1998), never the narrower
  double teeth;         ///< examined
  double retained;
  std::size_t clusters; ///< with at least one tooth examined
  /// Linearised variance of the ratio, before any rule on the design effect; none with one cluster.
  std::optional<double> variance;
  double designEffect; ///< as used, at least 1
  double effectiveN;   ///< teeth / designEffect
  /// When all or none are retained: Wilson with n = number of clusters.
  std::optional<Interval> conservative;
  std::vector<RetentionNote> notes;
  /// Symmetric on the log-odds with Student's t on clusters - 1 degrees, on effectiveN; none with
  /// one cluster and when all or none are retained.
  std::optional<Interval> logit = std::nullopt;
  /// When all or none are retained: Clopper-Pearson with n = number of clusters.
  std::optional<Interval> conservativeExact = std::nullopt;
  /// What a person reads: see `intervalToRead`. None with one cluster.
  std::optional<PolicyInterval> toRead = std::nullopt;

  [[nodiscard]] bool has(RetentionNote note) const;
};

/// Ratio estimate over clusters, its linearised variance, and intervals on the effective sample
/// size (Rao and Scott 1992, Biometrics 48:577-85). Order of the clusters is of no account.
/// Fails with `estimateInput`, naming the cluster by its place from 1, for a count that is
/// negative, not whole or not finite, for more retained than examined, when no tooth was examined,
/// and for a level outside 0.5 to 0.9999. `pooled` is the program's own design effect, for a part
/// of it that cannot tell its own; `least` one that these clusters' own is not to fall below, where
/// it is known from elsewhere that they hide some likeness.
base::Result<RetentionEstimate> retention(std::span<const Cluster> clusters,
                                          double level = usualLevel,
                                          std::optional<double> pooled = std::nullopt,
                                          double least = 0);

} // namespace gk::estimates
