#include "estimates/numbers/permutation.h"

#include "estimates/numbers/checks.h"

#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace gk::estimates {
namespace {

struct Block {
  std::vector<double> scores;
  std::size_t exposed = 0;
};

/// The total of `exposed` scores drawn without replacement, by a part of Fisher and Yates' shuffle.
double drawnTotal(Block& block, base::Random& random) {
  double total = 0;
  for (std::size_t i = 0; i < block.exposed; ++i) {
    const auto other = i + random.below(block.scores.size() - i);
    std::swap(block.scores[i], block.scores[other]);
    total += block.scores[i];
  }
  return total;
}

} // namespace

base::Result<std::optional<double>> permutationP(std::span<const PermutedUnit> units,
                                                 base::Random& random, std::size_t arrangements) {
  if (arrangements < 99 || arrangements > 1'000'000)
    return refused("There are " + std::to_string(arrangements) +
                   " arrangements; give 99 to 1,000,000.");
  std::map<std::size_t, Block> blocks;
  double observed = 0;
  double scale = 0;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!std::isfinite(units[i].score))
      return refused("Unit " + std::to_string(i + 1) + ": the score is not a number.");
    auto& block = blocks[units[i].block];
    block.scores.push_back(units[i].score);
    if (units[i].exposed) ++block.exposed;
    observed += units[i].exposed ? units[i].score : 0;
    scale += std::fabs(units[i].score);
  }
  double expected = 0;
  bool isMixed = false;
  for (const auto& [label, block] : blocks) {
    double sum = 0;
    for (const double score : block.scores)
      sum += score;
    expected += sum * static_cast<double>(block.exposed) / static_cast<double>(block.scores.size());
    isMixed |= block.exposed > 0 && block.exposed < block.scores.size();
  }
  if (!isMixed) return std::optional<double>();
  const double far = std::fabs(observed - expected) - 1e-9 * scale; // sums in another order
  std::size_t asFar = 1;
  for (std::size_t i = 0; i < arrangements; ++i) {
    double total = 0;
    for (auto& [label, block] : blocks)
      total += drawnTotal(block, random);
    if (std::fabs(total - expected) >= far) ++asFar;
  }
  return std::optional(static_cast<double>(asFar) / static_cast<double>(arrangements + 1));
}

} // namespace gk::estimates
