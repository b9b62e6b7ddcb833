#pragma once

#include "base/random.h"
#include "estimates/comparison_clusters.h"
#include "estimates/funnel.h"
#include "estimates/shrinkage.h"
#include "reports/retention_totals.h"

namespace gk::reports {

/// One value of a factor held against all the others of the cohort.
struct FactorValue {
  RetentionLine line;
  /// Whole at the check, within types of tooth, children as clusters; none for a hidden operator or
  /// when the factor has one value alone.
  std::optional<estimates::ClusteredComparison> against;
  std::optional<double> adjustedP; ///< Holm over the values of this factor, of the clustered p
  std::optional<estimates::Departure> funnel;
  std::optional<estimates::ShrunkenUnit> shrunken;
};

struct FactorComparison {
  Factor factor;
  std::vector<FactorValue> values; ///< by label, never by rate
  /// Of two values only the first is compared: the second says the same turned round.
  bool isPair = false;
  RetentionLine total;
  double designEffect = 1; ///< of the total by child, used for every funnel
  std::vector<estimates::FunnelNote> funnelNotes{};
  std::vector<estimates::ShrinkageNote> shrinkageNotes{};
};

struct ComparisonOptions {
  RetentionOptions retention{};
  std::size_t replicates = estimates::usualReplicates;
  std::uint64_t seed = 20'080'101; ///< of the bootstrap: the same records give the same report
};

/// Each value of the factor against the rest. Observational: nothing here was drawn by lot.
FactorComparison compareFactor(const RetentionFacts& facts, Factor factor,
                               const Choice& choice = {}, const ComparisonOptions& options = {});

} // namespace gk::reports
