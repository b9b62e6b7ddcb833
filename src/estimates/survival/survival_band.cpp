#include "estimates/survival/survival_band.h"

#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"
#include "estimates/numbers/percentile.h"
#include "estimates/shares/interval_policy.h"
#include "estimates/shares/program_share.h"
#include "estimates/survival/survival_spells.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
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

bool saysSomething(const Spell& spell) {
  return spell.teeth > 0 && (spell.left > 0 || spell.right);
}

std::size_t schoolsOf(std::span<const Spell> spells) {
  std::set<std::size_t> schools;
  for (const auto& spell : spells)
    if (saysSomething(spell)) schools.insert(spell.school);
  return schools.size();
}

BandUnits unitsOf(std::size_t schools) {
  switch (programUnits(schools)) {
  case ProgramUnits::children:
    return BandUnits::children;
  case ProgramUnits::childrenPlanned:
    return BandUnits::tooFewSchools;
  case ProgramUnits::schools:
    return BandUnits::schools;
  }
  base::fail("no such units");
}

std::vector<Spell> labelledBySchool(std::span<const Spell> spells) {
  std::vector<Spell> out(spells.begin(), spells.end());
  for (auto& spell : out)
    spell.child = spell.school;
  return out;
}

// Each child, or school, as often as it is drawn.
void drawWeights(const JoinedSpells& joined, base::Random& random, std::vector<double>& draws,
                 std::vector<double>& weights) {
  std::fill(draws.begin(), draws.end(), 0);
  for (std::size_t i = 0; i < joined.children; ++i)
    ++draws[random.below(joined.children)];
  std::fill(weights.begin(), weights.end(), 0);
  for (const auto& part : joined.parts)
    weights[part.stretch] += draws[part.child] * part.teeth;
}

// One band for each time.
std::vector<Interval> percentileBand(const JoinedSpells& joined, const StretchSet& stretches,
                                     std::span<const double> times, std::size_t replicates,
                                     base::Random& random, double tail) {
  std::vector<std::vector<double>> lows(times.size());
  std::vector<std::vector<double>> highs(times.size());
  std::vector<double> draws(joined.children);
  std::vector<double> weights(stretches.size());
  for (std::size_t i = 0; i < replicates; ++i) {
    drawWeights(joined, random, draws, weights);
    const auto again = stretches.fit(weights);
    for (std::size_t t = 0; t < times.size(); ++t) {
      const auto [low, high] = survivalOf(again.masses, times[t]);
      lows[t].push_back(low);
      highs[t].push_back(high);
    }
  }
  std::vector<Interval> out;
  for (std::size_t t = 0; t < times.size(); ++t) {
    std::sort(lows[t].begin(), lows[t].end());
    std::sort(highs[t].begin(), highs[t].end());
    out.push_back({percentile(lows[t], tail), percentile(highs[t], 1 - tail)});
  }
  return out;
}

// m schools show the spread of schools with m - 1 degrees, and a drawing of m of them has only
// (m - 1) / m of its variance.
double reachOf(std::size_t schools, double tail) {
  const auto m = static_cast<double>(schools);
  return studentQuantile(1 - tail, m - 1) / normalQuantile(1 - tail) * std::sqrt(m / (m - 1));
}

void widen(Interval& band, const Interval& about, double reach) {
  band.low = std::max(0.0, about.low - reach * (about.low - band.low));
  band.high = std::min(1.0, about.high + reach * (band.high - about.high));
}

// How many children are of which a claim is true, each once, and how many independent ones tell as
// much: where schools are drawn, children of a school are at least as alike as planned.
struct Settled {
  std::size_t children = 0;
  double effective = 0;
};

template <class Claim>
Settled settledWhere(std::span<const Spell> spells, BandUnits units, Claim claim) {
  std::map<std::size_t, std::set<std::size_t>> children;
  for (const auto& spell : spells)
    if (saysSomething(spell) && claim(spell))
      children[units == BandUnits::schools ? spell.school : 0].insert(spell.child);
  Settled out;
  double squares = 0;
  for (const auto& [school, own] : children) {
    out.children += own.size();
    squares += static_cast<double>(own.size() * own.size());
  }
  if (out.children == 0) return out;
  out.effective = static_cast<double>(out.children);
  if (units == BandUnits::schools)
    out.effective /= 1 + (squares / out.effective - 1) * plannedLikeness;
  return out;
}

// Looks in order of age from `time` on, as far as the first that leaves open what was at `time`. To
// stop at a failure is no choice by outcome: the chance of so many whole ones before it is at most
// S(time) to their number, which is what the exact limit solves.
Settled wholeAbout(std::span<const Spell> spells, BandUnits units, double time) {
  double until = std::numeric_limits<double>::infinity();
  for (const auto& spell : spells)
    if (saysSomething(spell) && spell.left < time && spell.right && time < *spell.right)
      until = std::min(until, *spell.right);
  return settledWhere(spells, units,
                      [&](const Spell& spell) { return spell.left >= time && spell.left < until; });
}

// The same backward: from `time` to the last look that found whole what may have failed by then.
Settled failedAbout(std::span<const Spell> spells, BandUnits units, double time) {
  double from = -1;
  for (const auto& spell : spells)
    if (saysSomething(spell) && spell.left > 0 && spell.left <= time &&
        (!spell.right || *spell.right > time))
      from = std::max(from, spell.left);
  return settledWhere(spells, units, [&](const Spell& spell) {
    return spell.right && *spell.right <= time && *spell.right > from;
  });
}

// Clopper and Pearson for none of `count`: the largest share that is not seen, with chance `tail`.
double unseenShare(double count, double tail) {
  return count > 0 ? 1 - std::pow(tail, 1 / count) : 1;
}

void widenCertainLimits(BandPoint& point, std::span<const Spell> spells, BandUnits units,
                        double tail) {
  auto& [low, high] = *point.band;
  if (low == 1 && point.time > 0) {
    const auto settled = wholeAbout(spells, units, point.time);
    low = 1 - unseenShare(settled.effective, tail);
    point.isExactLimit = true;
    point.settled = settled.children;
  }
  if (high == 0) {
    const auto settled = failedAbout(spells, units, point.time);
    high = unseenShare(settled.effective, tail);
    point.isExactLimit = true;
    point.settled = settled.children;
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

  const auto schools = schoolsOf(spells);
  SurvivalBand out{
      .points = {},
      .replicates = replicates,
      .children = joined->children,
      .isFewChildren = joined->children < fewestClusters,
      .units = unitsOf(schools),
      .schools = schools,
  };
  for (const double time : times)
    out.points.push_back({time, survivalOf(fitted.masses, time), std::nullopt, false, 0});
  if (joined->children == 1 || out.units == BandUnits::tooFewSchools) return out;

  const double tail = (1 - level) / 2;
  std::vector<Interval> bands;
  if (out.units == BandUnits::children || schools < fewestClusters)
    bands = percentileBand(*joined, stretches, times, replicates, random, tail);
  if (out.units == BandUnits::schools) {
    const auto drawn = *joinSpells(labelledBySchool(spells)); // as above, under other labels
    auto wider = percentileBand(drawn, stretches, times, replicates, random, tail);
    for (std::size_t t = 0; t < times.size(); ++t) {
      widen(wider[t], out.points[t].survival, reachOf(schools, tail));
      if (bands.empty()) continue;
      wider[t] = {std::min(wider[t].low, bands[t].low), std::max(wider[t].high, bands[t].high)};
    }
    bands = std::move(wider);
  }
  for (std::size_t t = 0; t < times.size(); ++t) {
    out.points[t].band = bands[t];
    widenCertainLimits(out.points[t], spells, out.units, tail);
  }
  return out;
}

} // namespace gk::estimates
