#include "estimates/survival/survival_band.h"

#include "estimates/numbers/checks.h"
#include "estimates/numbers/percentile.h"
#include "estimates/shares/retention.h"
#include "estimates/survival/survival_spells.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

base::Result<base::Done> checkAsked(std::span<const double> times, std::size_t replicates,
                                    double level) {
  if (auto checked = checkLevel(level); !checked) return checked;
  if (replicates < 100 || replicates > 100'000)
    return refused("The number of replicates is " + std::to_string(replicates) +
                   "; give one from 100 to 100,000, such as 1,000.");
  for (std::size_t i = 0; i < times.size(); ++i)
    if (auto checked = checkCount("Time " + std::to_string(i + 1), times[i]); !checked)
      return checked;
  return base::Done{};
}

// Each child as often as it is drawn.
void drawWeights(const JoinedSpells& joined, base::Random& random, std::vector<double>& draws,
                 std::vector<double>& weights) {
  std::fill(draws.begin(), draws.end(), 0);
  for (std::size_t i = 0; i < joined.children; ++i)
    ++draws[random.below(joined.children)];
  std::fill(weights.begin(), weights.end(), 0);
  for (const auto& part : joined.parts)
    weights[part.stretch] += draws[part.child] * part.teeth;
}

template <class Claim>
double childrenWith(const JoinedSpells& joined, Claim claim) {
  double count = 0;
  std::size_t last = joined.children;
  for (const auto& part : joined.parts) {
    if (part.child == last || !claim(joined.stretches[part.stretch])) continue;
    last = part.child;
    ++count;
  }
  return count;
}

// Clopper and Pearson for none of `count`: the largest share that is not seen, with chance `tail`.
double unseenShare(double count, double tail) {
  return count > 0 ? 1 - std::pow(tail, 1 / count) : 1;
}

void widenCertainLimits(BandPoint& point, const JoinedSpells& joined, double tail) {
  auto& [low, high] = *point.band;
  const double time = point.time;
  if (low == 1 && time > 0) {
    low = 1 - unseenShare(childrenWith(joined, [time](const Stretch& s) { return s.left >= time; }),
                          tail);
    point.isExactLimit = true;
  }
  if (high == 0) {
    high = unseenShare(childrenWith(joined, [time](const Stretch& s) { return s.right <= time; }),
                       tail);
    point.isExactLimit = true;
  }
}

} // namespace

base::Result<SurvivalBand> survivalBand(std::span<const Spell> spells,
                                        std::span<const double> times, std::size_t replicates,
                                        base::Random& random, double level) {
  if (auto checked = checkAsked(times, replicates, level); !checked) return checked.error();
  const auto joined = joinSpells(spells);
  if (!joined) return joined.error();
  const StretchSet stretches(joined->stretches);
  const auto fitted = stretches.fit(joined->teeth);

  SurvivalBand out{
      .points = {},
      .replicates = replicates,
      .children = joined->children,
      .isFewChildren = joined->children < fewestClusters,
  };
  for (const double time : times)
    out.points.push_back({time, survivalOf(fitted.masses, time), std::nullopt, false});
  if (joined->children == 1) return out;

  std::vector<std::vector<double>> lows(times.size());
  std::vector<std::vector<double>> highs(times.size());
  std::vector<double> draws(joined->children);
  std::vector<double> weights(stretches.size());
  for (std::size_t i = 0; i < replicates; ++i) {
    drawWeights(*joined, random, draws, weights);
    const auto again = stretches.fit(weights);
    for (std::size_t t = 0; t < times.size(); ++t) {
      const auto [low, high] = survivalOf(again.masses, times[t]);
      lows[t].push_back(low);
      highs[t].push_back(high);
    }
  }
  const double tail = (1 - level) / 2;
  for (std::size_t t = 0; t < times.size(); ++t) {
    std::sort(lows[t].begin(), lows[t].end());
    std::sort(highs[t].begin(), highs[t].end());
    out.points[t].band = {percentile(lows[t], tail), percentile(highs[t], 1 - tail)};
    widenCertainLimits(out.points[t], *joined, tail);
  }
  return out;
}

} // namespace gk::estimates
