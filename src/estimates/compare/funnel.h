#pragma once

#include "estimates/shares/proportion.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// Exact binomial limit at lower-tail probability `tail` for a share `theta` and `n` teeth, with
/// interpolation (Spiegelhalter 2005, Stat Med 24:1185-202): k is the smallest count with
/// F(k) > tail, and the limit (k - (F(k) - tail) / (F(k) - F(k - 1))) / n, clipped to [0, 1]. `n`
/// may be an effective number; the distribution function is then that of the beta form, and counts
/// from n on are certain. Fails with `estimateInput` for theta outside [0, 1], n not above 0 or
/// above a million, and a tail outside 0.00001 to 0.99999.
base::Result<double> binomialLimit(double theta, double n, double tail);

/// Lower-tail probabilities of what is kept, and of what is not: the upper limits are the lower
/// ones of the rest, so that a count is outside just where it, or one further out, has no more than
/// that probability. About two and three deviations.
struct FunnelTails {
  double inner = 0.025;
  double outer = 0.001;
};

struct FunnelLimits {
  double farLow;
  double low;
  double high;
  double farHigh;
};

/// Fails as `binomialLimit` does, for tails of 0.5 or more, and an outer above the inner one.
base::Result<FunnelLimits> funnelLimits(double theta, double n, FunnelTails tails = {});

/// Where a share lies. On a limit counts as within it.
enum class FunnelPlace { farBelow, below, within, above, farAbove };

FunnelPlace placeIn(const FunnelLimits& limits, double share);

/// Teeth of a school, a lot or an operator.
struct Unit {
  double examined;
  double kept;
};

enum class FunnelNote {
  /// Fewer than `fewestClusters` units: the program's total leans on each of them.
  fewUnits,
  /// Units without a tooth examined have no place.
  emptyUnits,
  /// All or none kept in the whole program: no unit can depart.
  allOrNone,
};

struct Departure {
  std::optional<double> share; ///< none: no tooth examined
  double effectiveN;           ///< examined / the design effect
  std::optional<FunnelLimits> limits;
  FunnelPlace place; ///< `within` when there is no share
};

struct Departures {
  double theta;                 ///< kept / examined over all units
  std::vector<Departure> units; ///< in the order given
  /// Units expected outside the inner limits by chance were all alike.
  double expectedByChance;
  std::vector<FunnelNote> notes;

  [[nodiscard]] bool has(FunnelNote note) const;
};

/// Departures of the units from the program they make up. `designEffect` is the program's own, from
/// `retention` by child: that of a single small unit is not to be trusted. A signal asks for a
/// look, never for a verdict. Fails with `estimateInput`, naming the unit by its place from 1, for
/// counts that are negative, not finite or with more kept than examined, when nothing was examined,
/// for a design effect outside 1 to 1,000, and as `funnelLimits` does.
base::Result<Departures> departures(std::span<const Unit> units, double designEffect,
                                    FunnelTails tails = {});

} // namespace gk::estimates
