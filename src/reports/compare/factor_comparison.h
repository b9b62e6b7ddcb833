#pragma once

#include "base/random.h"
#include "estimates/compare/comparison_clusters.h"
#include "estimates/compare/funnel.h"
#include "estimates/compare/shrinkage.h"
#include "reports/retention/retention_totals.h"

#include <map>
#include <span>

namespace gk::reports {

/// At which level a value and the rest are told apart.
enum class FactorLevel {
  withinSchools,  ///< some school has teeth of both: compared within schools, children as clusters
  betweenSchools, ///< each school has one of the two alone: schools are the units
  schools         ///< the school itself is the factor
};

/// What changes sides in a permutation.
enum class Permuted {
  no,
  schools,
  childrenInSchools,
  children, ///< among the schools, where the school is the factor
  teeth     ///< within a child, where some child has teeth on both sides
};

/// Between schools a p needs as many on either side: fewer cannot be told apart from the schools.
inline constexpr int fewestSchoolsASide = 6;

/// The judged teeth of one value, by the school where they were sealed.
struct HeldTeeth {
  int whole = 0;
  int assessable = 0;
};
using HeldBySchool = std::map<FactorCode, HeldTeeth>;

/// An earlier value of the report that parts the judged teeth in the same way.
struct SameTeeth {
  Factor factor;
  std::string label;
  bool isReversed; ///< its teeth are all the others here
};

/// One value of a factor held against all the others of the cohort.
struct FactorValue {
  RetentionLine line;
  /// Whole at the check, within types of tooth and, where the factor varies within them, schools;
  /// none for a hidden operator or when the factor has one value alone.
  std::optional<estimates::ClusteredComparison> against{};
  FactorLevel level = FactorLevel::withinSchools;
  std::optional<double> p{};         ///< of no difference; none where the figures cannot tell
  Permuted permuted = Permuted::no;  ///< what `p` is a permutation of
  bool hasFewSchools = false;        ///< between schools, with under `fewestSchoolsASide` on a side
  std::optional<double> adjustedP{}; ///< Holm over all comparisons made together
  std::optional<SameTeeth> sameAs{}; ///< then the comparison is that one, and there is no p here
  std::vector<Factor> alsoOf{};      ///< factors of which a later value is the same as this one
  HeldBySchool bySchool{};           ///< of `Factor::tooth` alone
  std::optional<estimates::Departure> funnel{};
  std::optional<estimates::ShrunkenUnit> shrunken{};
};

struct FactorComparison {
  Factor factor;
  std::vector<FactorValue> values; ///< by label, never by rate
  /// Of two values only the first is compared: the second says the same turned round.
  bool isPair = false;
  RetentionLine total;
  std::vector<Factor> alsoCalled{}; ///< other factors that part the same teeth in the same way
  std::size_t comparedTogether = 0; ///< p-values that Holm's adjustment was made over
  /// Of the funnel. Of schools it is that of the total by child, as their limits must not have what
  /// schools differ by in them; else the larger of that and of the total's own, by schools.
  double designEffect = 1;
  bool allowsForSchools = false; ///< the design effect has what schools differ by in it
  std::vector<estimates::FunnelNote> funnelNotes{};
  std::vector<estimates::ShrinkageNote> shrinkageNotes{};
};

struct ComparisonOptions {
  RetentionOptions retention{};
  std::size_t replicates = estimates::usualReplicates;
  std::uint64_t seed = 20'080'101; ///< of the bootstrap: the same records give the same report
};

/// Holm over the p-values of all of them: those of one report.
void adjustTogether(std::vector<FactorComparison>& compared);

/// Each of the factors, without those that part the judged teeth as one before them does (see
/// `alsoCalled`), adjusted together. A single value that does is compared once (see `sameAs`).
std::vector<FactorComparison> compareFactors(const RetentionFacts& facts,
                                             std::span<const Factor> factors, const Choice& choice,
                                             const ComparisonOptions& options);

/// Each value of the factor against the rest. Observational: nothing here was drawn by lot.
FactorComparison compareFactor(const RetentionFacts& facts, Factor factor,
                               const Choice& choice = {}, const ComparisonOptions& options = {});

} // namespace gk::reports
