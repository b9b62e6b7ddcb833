#include "estimates/numbers/random_effects.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>

namespace gk::estimates {
namespace {

struct Weighted {
  double sum;     ///< of the weights
  double squares; ///< of the squared weights
  double mean;
  double spread;     ///< sum of w (y - mean)^2
  double likelihood; ///< restricted, without constants
  double slope;      ///< of `likelihood` in tau squared
};

Weighted weightedAt(const std::vector<NormalUnit>& units, double tauSquared) {
  Weighted out{};
  for (const auto& [estimate, variance] : units) {
    const double w = 1 / (variance + tauSquared);
    out.sum += w;
    out.squares += w * w;
    out.mean += w * estimate;
    out.likelihood += std::log(w) / 2;
  }
  out.mean /= out.sum;
  double pull = 0;
  for (const auto& [estimate, variance] : units) {
    const double w = 1 / (variance + tauSquared);
    const double away = estimate - out.mean;
    out.spread += w * away * away;
    pull += w * w * away * away;
  }
  out.likelihood -= (std::log(out.sum) + out.spread) / 2;
  out.slope = (pull - out.sum + out.squares / out.sum) / 2;
  return out;
}

// The restricted likelihood may have two summits, so a grid finds the higher one and its slope,
// halved between neighbors, the place.
double likeliestTauSquared(const std::vector<NormalUnit>& units) {
  double smallest = units.front().variance;
  double low = units.front().estimate;
  double high = low;
  for (const auto& [estimate, variance] : units) {
    smallest = std::min(smallest, variance);
    low = std::min(low, estimate);
    high = std::max(high, estimate);
  }
  const double widest = (high - low) * (high - low) + smallest;
  constexpr int steps = 200;
  std::vector<double> grid{0};
  for (int i = 0; i <= steps; ++i)
    grid.push_back(widest * std::pow(1e-8, 1 - static_cast<double>(i) / steps));
  std::size_t best = 0;
  double highest = weightedAt(units, 0).likelihood;
  for (std::size_t i = 1; i < grid.size(); ++i) {
    const double here = weightedAt(units, grid[i]).likelihood;
    if (here <= highest) continue;
    highest = here;
    best = i;
  }
  if (best == 0 && weightedAt(units, 0).slope <= 0) return 0;
  double from = best == 0 ? 0 : grid[best - 1];
  double until = grid[std::min(best + 1, grid.size() - 1)];
  for (int i = 0; i < 200; ++i) {
    const double middle = from + (until - from) / 2;
    (weightedAt(units, middle).slope > 0 ? from : until) = middle;
  }
  return from + (until - from) / 2;
}

} // namespace

RandomEffects randomEffects(const std::vector<NormalUnit>& units) {
  base::require(!units.empty(), "random effects of nothing");
  const Weighted fixed = weightedAt(units, 0);
  if (units.size() == 1) return {fixed.mean, 1 / fixed.sum, 1 / fixed.sum, 0, 0, 0};
  const double degrees = static_cast<double>(units.size()) - 1;
  RandomEffects out{};
  out.q = fixed.spread;
  out.tauSquaredMoments =
      std::max(0.0, (fixed.spread - degrees) / (fixed.sum - fixed.squares / fixed.sum));
  out.tauSquared = likeliestTauSquared(units);
  const Weighted at = weightedAt(units, out.tauSquared);
  out.mean = at.mean;
  out.variance = 1 / at.sum;
  out.adjustedVariance = out.variance * std::max(1.0, at.spread / degrees);
  return out;
}

} // namespace gk::estimates
