#pragma once

#include "estimates/shares/retention.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// The sealed teeth of one child. The labels only join rows: a child of several rows has its teeth
/// added up, and a child checked in two schools belongs, tooth by tooth, to both of them.
struct ChildTeeth {
  std::size_t school;
  std::size_t child;
  double examined;
  double retained;
};

/// What is taken as independent of each other.
enum class ClusterLevel { child, school };

enum class LevelChoice {
  automatic, ///< as `programShare` has it for so many schools
  child,
  school,
};

enum class LevelNote {
  /// Children were asked for though several schools were checked: likeness within a school is
  /// missed.
  schoolLikenessMissed,
  /// By school the effective number came out above that by child: either the schools do not differ
  /// or they are too few to show it. Read both.
  schoolsMoreEven,
};

struct LevelledRetention {
  ClusterLevel level;
  RetentionEstimate used;    ///< the one of `level`
  RetentionEstimate byChild; ///< both are given, so that a table can show what the choice did
  RetentionEstimate bySchool;
  std::vector<LevelNote> notes;

  [[nodiscard]] bool has(LevelNote note) const;
};

/// Two stages, teeth in children in schools: with the upper stage as clusters the variance holds
/// whatever the likeness below it (the ultimate cluster, Hansen, Hurwitz and Madow 1953). The
/// estimate is the same at both levels. Fails as `retention` does, naming the row by its place.
base::Result<LevelledRetention> retentionByLevel(std::span<const ChildTeeth> rows,
                                                 LevelChoice choice = LevelChoice::automatic,
                                                 double level = usualLevel);

} // namespace gk::estimates
