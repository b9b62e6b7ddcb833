#include "reports/compare/factor_comparison.h"

#include "estimates/numbers/holm.h"
#include "estimates/numbers/permutation.h"
#include "estimates/shares/retention.h"

#include <algorithm>
#include <map>

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

Teeth judged(const RetentionFacts& facts, const Choice& choice) {
  Teeth teeth;
  for (const auto& fact : facts.rows())
    if (fact.isAssessable() && choice.takes(fact)) teeth.push_back(&fact);
  return teeth;
}

/// Limits between schools must not have what schools differ by in them.
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

void placeInFunnel(FactorComparison& out) {
  if (!out.total.whole95) return;
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
    if (out.values[i].line.hidden || units[i].examined == 0) continue;
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
  std::vector<FactorComparison> out;
  for (const auto factor : factors) {
    const auto same = std::ranges::find_if(
        out, [&](const auto& one) { return partAlike(teeth, one.factor, factor); });
    if (same == out.end())
      out.push_back(compareFactor(facts, factor, choice, options));
    else
      same->alsoCalled.push_back(factor);
  }
  adjustTogether(out);
  return out;
}

FactorComparison compareFactor(const RetentionFacts& facts, Factor factor, const Choice& choice,
                               const ComparisonOptions& options) {
  FactorComparison out{factor, {}, false, retentionLine(facts, choice)};
  const auto teeth = judged(facts, choice);
  out.designEffect = effectByChild(teeth);
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
  placeInFunnel(out);
  return out;
}

} // namespace gk::reports
