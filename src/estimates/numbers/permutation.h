#pragma once

#include "base/random.h"
#include "base/result.h"

#include <cstddef>
#include <optional>
#include <span>

namespace gk::estimates {

/// What is permuted as a whole, such as a school, or a child within its school. The score is the
/// sum over its teeth of kept less the share kept in their stratum.
struct PermutedUnit {
  std::size_t block; ///< sides are exchanged within it alone
  bool exposed;
  double score;
};

inline constexpr std::size_t usualArrangements = 9999;

/// Two-sided p of no difference: the share of arrangements, the observed one among them, in which
/// the exposed total is as far from what chance gives as it was (Fisher 1935; drawn and not
/// enumerated: Dwass 1957; both from memory). It holds its level for whatever likeness there is
/// within a unit, and with few units. None where no block has both sides. The same seed gives the
/// same p. Fails with `estimateInput` for fewer than 99 or more than 1,000,000 arrangements and for
/// a score that is not finite, naming the unit by its place from 1.
base::Result<std::optional<double>> permutationP(std::span<const PermutedUnit> units,
                                                 base::Random& random,
                                                 std::size_t arrangements = usualArrangements);

} // namespace gk::estimates
