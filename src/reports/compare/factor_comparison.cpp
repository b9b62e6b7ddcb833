#include "reports/compare/factor_comparison.h"

#include "estimates/numbers/holm.h"
#include "estimates/numbers/permutation.h"
#include "estimates/shares/retention.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace gk::reports {

namespace {

using estimates::ComparedTooth;

using Teeth = std::vector<const SealantFact*>;

bool isWhole(const SealantFact& fact) {
  return fact.held == followup::Held::whole;
}

/// Compared within types of tooth; where the tooth itself is in question, all together. Within
/// schools too where a school's own share would else pass for the factor's.
std::size_t stratumOf(const SealantFact& fact, Factor factor, FactorLevel level) {
  const bool isTooth = factor == Factor::tooth || factor == Factor::arch;
  const std::size_t type = isTooth ? 0 : static_cast<std::size_t>(fact.type);
  constexpr std::size_t types = 8; // more than there are
  return level == FactorLevel::withinSchools ? types * fact.at(Factor::school) + type : type;
}

/// How many schools have teeth of the value, of the others, and of both.
struct Sides {
  int with = 0;
  int without = 0;
  int both = 0;
};

Sides sidesOf(const Teeth& teeth, Factor factor, FactorCode code) {
  std::map<FactorCode, std::pair<bool, bool>> seen;
  for (const auto* fact : teeth) {
    auto& [with, without] = seen[fact->at(Factor::school)];
    (fact->at(factor) == code ? with : without) = true;
  }
  Sides out;
  for (const auto& [school, has] : seen) {
    out.with += has.first ? 1 : 0;
    out.without += has.second ? 1 : 0;
    out.both += has.first && has.second ? 1 : 0;
  }
  return out;
}

using Strata = std::map<std::size_t, std::pair<double, double>>; // teeth, whole

Strata strataOf(const Teeth& teeth, Factor factor, FactorLevel level) {
  Strata strata;
  for (const auto* fact : teeth) {
    auto& [count, whole] = strata[stratumOf(*fact, factor, level)];
    count += 1;
    whole += isWhole(*fact) ? 1 : 0;
  }
  return strata;
}

/// A tooth's distance from the share whole of its stratum.
double scoreOf(const SealantFact& fact, const Strata& strata, std::size_t stratum) {
  const auto& [count, whole] = strata.at(stratum);
  return (isWhole(fact) ? 1 : 0) - whole / count;
}

/// Schools, or children, each with the scores of its teeth; none where a unit is on both sides or
/// in two schools.
std::vector<estimates::PermutedUnit> wholeUnits(const Teeth& teeth, Factor factor, FactorCode code,
                                                FactorLevel level) {
  const auto strata = strataOf(teeth, factor, level);
  const bool areSchools = level == FactorLevel::betweenSchools;
  std::map<std::size_t, estimates::PermutedUnit> units;
  for (const auto* fact : teeth) {
    const std::size_t school = fact->at(Factor::school);
    const std::size_t block = level == FactorLevel::withinSchools ? school : 0;
    const bool exposed = fact->at(factor) == code;
    auto& unit = units
                     .try_emplace(areSchools ? school : fact->child,
                                  estimates::PermutedUnit{block, exposed, 0})
                     .first->second;
    if (unit.exposed != exposed || unit.block != block) return {};
    unit.score += scoreOf(*fact, strata, stratumOf(*fact, factor, level));
  }
  std::vector<estimates::PermutedUnit> out;
  for (const auto& [label, unit] : units)
    out.push_back(unit);
  return out;
}

/// Teeth, which change sides with those of the same child and stratum alone.
std::vector<estimates::PermutedUnit> teethOfChildren(const Teeth& teeth, Factor factor,
                                                     FactorCode code, FactorLevel level) {
  const auto strata = strataOf(teeth, factor, level);
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> blocks;
  std::vector<estimates::PermutedUnit> out;
  for (const auto* fact : teeth) {
    const auto stratum = stratumOf(*fact, factor, level);
    const auto block = blocks.try_emplace({fact->child, stratum}, blocks.size()).first->second;
    out.push_back({block, fact->at(factor) == code, scoreOf(*fact, strata, stratum)});
  }
  return out;
}

Permuted unitsOf(FactorLevel level) {
  switch (level) {
  case FactorLevel::withinSchools:
    return Permuted::childrenInSchools;
  case FactorLevel::betweenSchools:
    return Permuted::schools;
  case FactorLevel::schools:
    return Permuted::children;
  }
  base::fail("no such level");
}

void permute(FactorValue& value, const Teeth& teeth, Factor factor,
             const ComparisonOptions& options) {
  auto units = wholeUnits(teeth, factor, *value.line.code, value.level);
  auto what = unitsOf(value.level);
  if (units.empty() && value.level != FactorLevel::schools) {
    units = teethOfChildren(teeth, factor, *value.line.code, value.level);
    what = Permuted::teeth;
  }
  base::SeededRandom random(options.seed);
  value.p = *estimates::permutationP(units, random); // scores are our own
  if (value.p) value.permuted = what;
}

void compareValue(FactorValue& value, const Teeth& teeth, Factor factor,
                  const ComparisonOptions& options) {
  const auto code = *value.line.code;
  const auto sides = sidesOf(teeth, factor, code);
  value.level = factor == Factor::school ? FactorLevel::schools
                : sides.both > 0         ? FactorLevel::withinSchools
                                         : FactorLevel::betweenSchools;
  const bool areSchools = value.level == FactorLevel::betweenSchools;
  std::vector<ComparedTooth> rows;
  rows.reserve(teeth.size());
  for (const auto* fact : teeth)
    rows.push_back({areSchools ? fact->at(Factor::school) : fact->child,
                    stratumOf(*fact, factor, value.level), fact->at(factor) == code,
                    isWhole(*fact)});
  base::SeededRandom random(options.seed);
  auto found = estimates::compareClustered(rows, random, options.replicates);
  if (!found) return; // no tooth was judged
  value.against = *std::move(found);
  value.hasFewSchools = areSchools && std::min(sides.with, sides.without) < fewestSchoolsASide;
  if (value.hasFewSchools) return;
  const auto& teethAlone = value.against->teeth;
  const bool isSmall = teethAlone.has(estimates::ComparisonNote::smallNumbers);
  if (areSchools || isSmall || !value.against->p)
    permute(value, teeth, factor, options);
  else
    value.p = value.against->p;
}

/// Whether both factors part these teeth in the same way.
bool partAlike(const Teeth& teeth, Factor one, Factor other) {
  std::map<FactorCode, FactorCode> there;
  std::map<FactorCode, FactorCode> back;
  for (const auto* fact : teeth) {
    const auto a = fact->at(one);
    const auto b = fact->at(other);
    if (there.try_emplace(a, b).first->second != b || back.try_emplace(b, a).first->second != a)
      return false;
  }
  return there.size() > 1;
}

/// Comparisons already made, by the teeth on either side.
class Splits {
 public:
  explicit Splits(const Teeth& teeth) : teeth_(teeth) {
    for (std::size_t i = 0; i < teeth.size(); ++i)
      all_ += markOf(i);
  }

  /// Takes the p from values of the newest that were compared before.
  void leaveOutRepeats(std::vector<FactorComparison>& compared) {
    auto& newest = compared.back();
    const bool isTooth = newest.factor == Factor::tooth || newest.factor == Factor::arch;
    std::map<FactorCode, std::uint64_t> sums;
    for (std::size_t i = 0; i < teeth_.size(); ++i)
      sums[teeth_[i]->at(newest.factor)] += markOf(i);
    for (std::size_t i = 0; i < newest.values.size(); ++i) {
      auto& value = newest.values[i];
      if (!value.p) continue;
      const Place here{compared.size() - 1, i, newest.factor, *value.line.code};
      const auto sum = sums.at(here.code);
      const auto side = hasFirst(here) ? all_ - sum : sum;
      const auto [at, isNew] = seen_.try_emplace(Key{side, value.level, isTooth}, here);
      if (isNew || !isSame(at->second, here)) continue;
      auto& first = compared[at->second.comparison].values[at->second.value];
      value.sameAs =
          SameTeeth{at->second.factor, first.line.label, hasFirst(at->second) != hasFirst(here)};
      value.p.reset();
      value.adjustedP.reset();
      value.permuted = Permuted::no;
      if (std::ranges::find(first.alsoOf, here.factor) == first.alsoOf.end())
        first.alsoOf.push_back(here.factor);
    }
  }

 private:
  struct Place {
    std::size_t comparison;
    std::size_t value;
    Factor factor;
    FactorCode code;
  };
  /// A set of teeth as the sum of their marks, on the side without the first tooth; the level and
  /// the strata, which decide the rest.
  using Key = std::tuple<std::uint64_t, FactorLevel, bool>;

  /// Scattered, so that two sets of one sum are never met in practice (splitmix64, from memory);
  /// `isSame` asks all the same. A set itself for each of many lots would take too much memory.
  static std::uint64_t markOf(std::size_t tooth) {
    std::uint64_t mark = (tooth + 1) * 0x9E3779B97F4A7C15U;
    mark = (mark ^ (mark >> 30U)) * 0xBF58476D1CE4E5B9U;
    mark = (mark ^ (mark >> 27U)) * 0x94D049BB133111EBU;
    return mark ^ (mark >> 31U);
  }
  [[nodiscard]] bool hasFirst(const Place& place) const {
    return teeth_.front()->at(place.factor) == place.code;
  }
  [[nodiscard]] bool isSame(const Place& one, const Place& other) const {
    const bool isReversed = hasFirst(one) != hasFirst(other);
    return std::ranges::all_of(teeth_, [&](const auto* fact) {
      return (fact->at(one.factor) == one.code) ==
             ((fact->at(other.factor) == other.code) != isReversed);
    });
  }

  const Teeth& teeth_;
  std::uint64_t all_ = 0;
  std::map<Key, Place> seen_;
};

Teeth judged(const RetentionFacts& facts, const Choice& choice) {
  Teeth teeth;
  for (const auto& fact : facts.rows())
    if (fact.isAssessable() && choice.takes(fact)) teeth.push_back(&fact);
  return teeth;
}

double effectByChild(const Teeth& teeth) {
  std::map<std::size_t, estimates::Cluster> children;
  for (const auto* fact : teeth) {
    auto& child = children.try_emplace(fact->child, estimates::Cluster{0, 0}).first->second;
    child.examined += 1;
    child.retained += isWhole(*fact) ? 1 : 0;
  }
  std::vector<estimates::Cluster> clusters;
  for (const auto& [label, child] : children)
    clusters.push_back(child);
  return clusters.empty() ? 1 : estimates::retention(clusters)->designEffect;
}

/// Whether a value stands in the funnel: not where it could be its schools alone that put it there.
bool hasPlace(const Teeth& teeth, Factor factor, const RetentionLine& line) {
  if (line.hidden || line.assessable == 0) return false;
  if (factor == Factor::school || !line.code) return true;
  const auto sides = sidesOf(teeth, factor, *line.code);
  return sides.both > 0 || sides.without == 0 ||
         std::min(sides.with, sides.without) >= fewestSchoolsASide;
}

void placeInFunnel(FactorComparison& out, const Teeth& teeth) {
  if (!out.total.whole95) return;
  out.designEffect = effectByChild(teeth);
  if (out.factor != Factor::school) {
    out.designEffect = std::max(out.designEffect, out.total.whole95->designEffect);
    out.allowsForSchools = out.total.unit == ClusterUnit::schools || out.total.isSchoolPlanned;
  }
  std::vector<estimates::Unit> units;
  for (const auto& value : out.values)
    units.push_back(
        {static_cast<double>(value.line.assessable), static_cast<double>(value.line.whole)});
  const auto places = estimates::departures(units, out.designEffect);
  auto effective = units; // as many as independent teeth would tell as much
  for (auto& unit : effective)
    unit = {unit.examined / out.designEffect, unit.kept / out.designEffect};
  const auto withTeeth =
      std::ranges::count_if(units, [](const auto& unit) { return unit.examined > 0; });
  std::optional<estimates::Shrinkage> shrunk;
  if (static_cast<std::size_t>(withTeeth) >= estimates::fewestToAdjust)
    if (auto found = estimates::shrunken(effective)) shrunk = *std::move(found);
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!hasPlace(teeth, out.factor, out.values[i].line)) continue;
    if (places) out.values[i].funnel = places->units[i];
    if (shrunk) out.values[i].shrunken = shrunk->units[i];
  }
  if (places) out.funnelNotes = places->notes;
  if (shrunk) out.shrinkageNotes = shrunk->notes;
}

HeldBySchool heldBySchool(const Teeth& teeth, Factor factor, FactorCode code) {
  HeldBySchool out;
  for (const auto* fact : teeth) {
    if (fact->at(factor) != code) continue;
    auto& held = out[fact->at(Factor::school)];
    held.assessable += 1;
    held.whole += isWhole(*fact) ? 1 : 0;
  }
  return out;
}

} // namespace

void adjustTogether(std::vector<FactorComparison>& compared) {
  std::vector<double> p;
  for (const auto& one : compared)
    for (const auto& value : one.values)
      if (value.p) p.push_back(*value.p);
  const auto adjusted = *estimates::holmAdjusted(p); // each is a p
  auto next = adjusted.begin();
  for (auto& one : compared) {
    one.comparedTogether = p.size();
    for (auto& value : one.values)
      if (value.p) value.adjustedP = *next++;
  }
}

std::vector<FactorComparison> compareFactors(const RetentionFacts& facts,
                                             std::span<const Factor> factors, const Choice& choice,
                                             const ComparisonOptions& options) {
  const auto teeth = judged(facts, choice);
  Splits splits(teeth);
  std::vector<FactorComparison> out;
  for (const auto factor : factors) {
    const auto same = std::ranges::find_if(
        out, [&](const auto& one) { return partAlike(teeth, one.factor, factor); });
    if (same != out.end()) {
      same->alsoCalled.push_back(factor);
      continue;
    }
    out.push_back(compareFactor(facts, factor, choice, options));
    splits.leaveOutRepeats(out);
  }
  adjustTogether(out);
  return out;
}

FactorComparison compareFactor(const RetentionFacts& facts, Factor factor, const Choice& choice,
                               const ComparisonOptions& options) {
  FactorComparison out{factor, {}, false, retentionLine(facts, choice)};
  const auto teeth = judged(facts, choice);
  auto lines = retentionBy(facts, factor, choice, options.retention);
  out.isPair = lines.size() == 2;
  for (auto& line : lines) {
    const bool isSecond = out.isPair && !out.values.empty();
    auto& value = out.values.emplace_back(FactorValue{.line = std::move(line)});
    if (factor == Factor::tooth && value.line.code)
      value.bySchool = heldBySchool(teeth, factor, *value.line.code);
    if (value.line.hidden || lines.size() < 2 || isSecond || value.line.assessable == 0) continue;
    compareValue(value, teeth, factor, options);
  }
  std::vector<FactorComparison> alone{std::move(out)};
  adjustTogether(alone);
  out = std::move(alone.front());
  placeInFunnel(out, teeth);
  return out;
}

} // namespace gk::reports
