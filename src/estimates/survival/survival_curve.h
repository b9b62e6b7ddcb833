#pragma once

#include "estimates/shares/proportion.h"
#include "estimates/survival/survival_spell.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// Where the estimate puts some of the failures. Within (left, right] nothing is known of when;
/// left = right is that very time. An empty right: after `left`, if at all.
struct SurvivalInterval {
  double left;
  std::optional<double> right;
  double mass; ///< share of the sealants, above 0
};

enum class SurvivalNote {
  /// Spells without any check that judged them (left 0, no right) were left out; `unchecked`
  /// counts.
  uncheckedSpells,
  /// No sealant was seen to fail: the curve is 1 up to the last check and unknown after it.
  noneFailed,
  /// Every sealant was seen to fail.
  allFailed,
  oneChild,
  /// The climb stopped with `gap` above 1e-6: the masses are near the maximum, not at it.
  notSettled,
};

struct SurvivalCurve {
  std::vector<SurvivalInterval> intervals; ///< by time, not overlapping; the masses sum to 1
  double logLikelihood;
  std::size_t iterations;
  /// How far the estimate is from the maximum: max of the slopes of the log-likelihood over its
  /// value at the maximum, less 1 (Karush, Kuhn and Tucker). Below 1e-10 when settled.
  double gap;
  double teeth; ///< in the curve
  double failed;
  double stillWhole;
  double unchecked; ///< teeth left out
  std::size_t children;
  std::vector<SurvivalNote> notes;

  [[nodiscard]] bool has(SurvivalNote note) const;
  /// Share not failed by `time`. Low and high are equal except strictly inside an interval.
  /// Precondition: not NaN.
  [[nodiscard]] Interval survivalAt(double time) const;
};

/// Nonparametric maximum likelihood for interval-censored times (Peto 1973, Turnbull 1976). Spells
/// are (left, right]; at equal times right ends come before left ends; left = right is an exact
/// time. The masses are unique: each innermost interval begins with some spell's left end, so the
/// coverage matrix has full column rank. Fails with `estimateInput`, naming the spell by its place
/// from 1, for times that are negative, not finite or above a thousand million, right < left, a
/// number of teeth that is no count; and when no spell says anything.
base::Result<SurvivalCurve> survivalCurve(std::span<const Spell> spells);

} // namespace gk::estimates
