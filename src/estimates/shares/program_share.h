#pragma once

#include "estimates/shares/retention.h"

namespace gk::estimates {

/// From this many schools on the share of a whole program is read by school.
inline constexpr std::size_t fewestSchools = 4;

/// What the share of a whole program takes as independent of each other.
enum class ProgramUnits {
  children, ///< of one school
  /// Of 2 or 3 schools, which hardly show how alike children of one school are: likeness within a
  /// school is at least the planned one (`plannedLikeness`).
  childrenPlanned,
  schools,
};

ProgramUnits programUnits(std::size_t schools);

/// The design effect as the clusters gave it, before any rule; none for one cluster and where all
/// or none are retained.
std::optional<double> foundDesignEffect(const RetentionEstimate& estimate);

/// The same teeth by child and by school. Under `fewestClusters` schools the design effect is the
/// larger of the two; with `childrenPlanned` at least 1 + (k - 1) `plannedLikeness` too, k the
/// teeth in the school of a tooth. Coverage: docs/methods.md, section 1. `pooled` and what fails
/// are as in `retention`.
base::Result<RetentionEstimate> programShare(std::span<const Cluster> children,
                                             std::span<const Cluster> schools, ProgramUnits units,
                                             double level = usualLevel,
                                             std::optional<double> pooled = std::nullopt);

} // namespace gk::estimates
