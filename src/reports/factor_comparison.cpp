#include "reports/factor_comparison.h"

#include "estimates/holm.h"

namespace gk::reports {

namespace {

using estimates::ComparedTooth;

/// Compared within types of tooth; where the tooth itself is in question, all together.
std::size_t stratumOf(const SealantFact& fact, Factor factor) {
  const bool isTooth = factor == Factor::tooth || factor == Factor::arch;
  return isTooth ? 0 : static_cast<std::size_t>(fact.type);
}

std::optional<estimates::ClusteredComparison> against(const std::vector<const SealantFact*>& teeth,
                                                      Factor factor, FactorCode code,
                                                      const ComparisonOptions& options) {
  std::vector<ComparedTooth> rows;
  rows.reserve(teeth.size());
  for (const auto* fact : teeth)
    rows.push_back({fact->child, stratumOf(*fact, factor), fact->at(factor) == code,
                    fact->held == followup::Held::whole});
  base::SeededRandom random(options.seed);
  auto found = estimates::compareClustered(rows, random, options.replicates);
  if (!found) return std::nullopt; // no tooth was judged
  return *std::move(found);
}

void adjust(std::vector<FactorValue>& values) {
  std::vector<double> p;
  for (const auto& value : values)
    if (value.against && value.against->p) p.push_back(*value.against->p);
  if (p.size() < 2) return;
  const auto adjusted = *estimates::holmAdjusted(p); // each is a p
  auto next = adjusted.begin();
  for (auto& value : values)
    if (value.against && value.against->p) value.adjustedP = *next++;
}

void placeInFunnel(FactorComparison& out) {
  if (!out.total.whole95) return;
  std::vector<estimates::Unit> units;
  for (const auto& value : out.values)
    units.push_back(
        {static_cast<double>(value.line.assessable), static_cast<double>(value.line.whole)});
  const auto places = estimates::departures(units, out.designEffect);
  const auto shrunk = estimates::shrunken(units);
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (out.values[i].line.hidden || units[i].examined == 0) continue;
    if (places) out.values[i].funnel = places->units[i];
    if (shrunk) out.values[i].shrunken = shrunk->units[i];
  }
  if (places) out.funnelNotes = places->notes;
  if (shrunk) out.shrinkageNotes = shrunk->notes;
}

} // namespace

FactorComparison compareFactor(const RetentionFacts& facts, Factor factor, const Choice& choice,
                               const ComparisonOptions& options) {
  FactorComparison out{factor, {}, false, retentionLine(facts, choice)};
  if (out.total.whole95) out.designEffect = out.total.whole95->designEffect;
  std::vector<const SealantFact*> teeth;
  for (const auto& fact : facts.rows())
    if (fact.isAssessable() && choice.takes(fact)) teeth.push_back(&fact);
  auto lines = retentionBy(facts, factor, choice, options.retention);
  out.isPair = lines.size() == 2;
  for (auto& line : lines) {
    const bool isSecond = out.isPair && !out.values.empty();
    auto& value = out.values.emplace_back(FactorValue{std::move(line), {}, {}, {}, {}});
    if (value.line.hidden || lines.size() < 2 || isSecond || value.line.assessable == 0) continue;
    value.against = against(teeth, factor, *value.line.code, options);
  }
  adjust(out.values);
  placeInFunnel(out);
  return out;
}

} // namespace gk::reports
