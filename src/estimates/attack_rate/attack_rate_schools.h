#pragma once

#include "estimates/attack_rate/attack_rate.h"

namespace gk::estimates {

/// One school's attack rate, as seen and as drawn towards the program's. The shrunken rate stands
/// beside the raw one, never instead of it.
struct SchoolRate {
  /// From its own children alone; none when no molar had enough exposure.
  std::optional<AttackRateEstimate> raw;
  /// With under four schools the raw one (but for half molars); without data the program's.
  double shrunken;
  /// Of the school's true rate. Without data the program's `prediction`, or 0 to 1.
  Interval interval;
  /// Weight of the school's own data in the shrunken rate: 0 nothing, 1 all.
  double ownWeight;
  /// None or all affected: half an affected and half a sound molar at the school's mean exposure
  /// were added, for the pooling alone.
  bool hasHalfMolars;
};

enum class SchoolRatesNote {
  /// Nothing to pool: the variance between schools is 0.
  oneSchool,
  fewSchools,   ///< under `fewestClusters`: the variance between schools is poorly known
  halfMolars,   ///< some school has `hasHalfMolars`
  emptySchools, ///< some school had nothing to say
  tauAtZero,    ///< no more difference between schools than chance explains
  /// No school had two children and both sound and affected molars, so nothing tells how alike the
  /// molars of a child are: they are taken as fully alike.
  fullyAlike,
};

struct SchoolRates {
  std::vector<SchoolRate> schools; ///< in the order given
  double annual;                   ///< of the average school; not that of the average child
  Interval interval;               ///< Student's t, schools - 1 degrees (Hartung and Knapp 2001)
  /// Where a further school's true rate would lie (Higgins, Thompson and Spiegelhalter 2009, J R
  /// Stat Soc A 172:137-59), t with schools - 2 degrees; none under three schools.
  std::optional<Interval> prediction;
  double cloglog;       ///< of `annual`
  double standardError; ///< of `cloglog`, as used in `interval`
  /// Variance of log(-log(1 - rate)) between schools: restricted maximum likelihood.
  double tauSquared;
  double tauSquaredMoments; ///< the same by DerSimonian and Laird 1986, to compare
  double q;                 ///< Cochran's, with schools - 1 degrees
  std::optional<double> qP; ///< none with one school
  /// Of children within schools, pooled over the schools by information; at least 1.
  double designEffect;
  std::vector<SchoolRatesNote> notes;

  [[nodiscard]] bool has(SchoolRatesNote note) const;
};

/// Normal-normal empirical Bayes on the complementary log-log scale with the corrections of Morris
/// 1983 (J Am Stat Assoc 78:47-55). A school's own variance is taken at its shrunken rate, found in
/// a first round under the common rate, times the pooled `designEffect` (one from few children is
/// noise). Fails as `attackRate` does, naming the school by its place from 1, and when no school
/// has a molar with enough exposure. Child labels need be unique within a school only.
base::Result<SchoolRates> schoolRates(std::span<const std::vector<Exposure>> schools,
                                      double level = usualLevel);

} // namespace gk::estimates
