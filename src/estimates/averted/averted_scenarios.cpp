#include "estimates/averted/averted_scenarios.h"

#include "base/contract.h"
#include "estimates/numbers/checks.h"

#include <algorithm>
#include <string>
#include <utility>

namespace gk::estimates {
namespace {

// An input that is moved, and the inputs of the model with it at one of its ends.
struct Doubt {
  ScenarioInput input;
  const char* name;
  AvertedInputs (*moved)(AvertedInputs, const ScenarioRanges&, bool high);
};

double endOf(const std::optional<Interval>& range, bool high) {
  return high ? range->high : range->low;
}

AvertedInputs movedRate(AvertedInputs inputs, const ScenarioRanges& ranges, bool high) {
  inputs.attackRate = endOf(ranges.attackRate, high);
  return inputs;
}
AvertedInputs movedRetention(AvertedInputs inputs, const ScenarioRanges& ranges, bool high) {
  inputs.retentionYearOne = endOf(ranges.retentionYearOne, high);
  return inputs;
}
AvertedInputs movedEfficacy(AvertedInputs inputs, const ScenarioRanges& ranges, bool high) {
  inputs.efficacy = endOf(ranges.efficacy, high);
  return inputs;
}
AvertedInputs movedRisk(AvertedInputs inputs, const ScenarioRanges& ranges, bool high) {
  inputs.relativeRiskAfterLoss = endOf(ranges.relativeRiskAfterLoss, high);
  return inputs;
}
AvertedInputs movedCurve(AvertedInputs inputs, const ScenarioRanges& ranges, bool high) {
  inputs.curve = high ? ranges.highCurve : ranges.lowCurve;
  return inputs;
}
AvertedInputs movedYears(AvertedInputs inputs, const ScenarioRanges& ranges, bool high) {
  inputs.years = high ? *ranges.mostYears : *ranges.fewestYears;
  return inputs;
}

base::Result<base::Done> checkRange(const char* name, const std::optional<Interval>& range,
                                    double base) {
  if (!range || (range->low <= base && base <= range->high)) return base::Done{};
  return refused(std::string("The range of the ") + name + " runs from " + shown(range->low) +
                 " to " + shown(range->high) + " and does not hold the base value " + shown(base) +
                 "; correct one of the three.");
}

base::Result<base::Done> checkRanges(const AvertedInputs& base, const ScenarioRanges& ranges) {
  const std::pair<const char*, std::pair<const std::optional<Interval>&, double>> each[]{
      {"attack rate", {ranges.attackRate, base.attackRate}},
      {"one-year retention", {ranges.retentionYearOne, base.retentionYearOne}},
      {"efficacy", {ranges.efficacy, base.efficacy}},
      {"relative risk after loss", {ranges.relativeRiskAfterLoss, base.relativeRiskAfterLoss}}};
  for (const auto& [name, range] : each)
    if (auto checked = checkRange(name, range.first, range.second); !checked) return checked;
  if (ranges.lowCurve.empty() != ranges.highCurve.empty())
    return refused("One retention curve is given without the other; give both ends or neither.");
  if (ranges.fewestYears.has_value() != ranges.mostYears.has_value())
    return refused("One count of years is given without the other; give both ends or neither.");
  if (!ranges.fewestYears) return base::Done{};
  return checkRange(
      "years",
      Interval{static_cast<double>(*ranges.fewestYears), static_cast<double>(*ranges.mostYears)},
      base.years);
}

std::vector<Doubt> doubtsIn(const ScenarioRanges& ranges) {
  std::vector<Doubt> doubts;
  if (ranges.attackRate) doubts.push_back({ScenarioInput::attackRate, "attack rate", movedRate});
  if (ranges.retentionYearOne)
    doubts.push_back({ScenarioInput::retentionYearOne, "one-year retention", movedRetention});
  if (ranges.efficacy) doubts.push_back({ScenarioInput::efficacy, "efficacy", movedEfficacy});
  if (ranges.relativeRiskAfterLoss)
    doubts.push_back({ScenarioInput::relativeRiskAfterLoss, "relative risk after loss", movedRisk});
  if (!ranges.lowCurve.empty()) doubts.push_back({ScenarioInput::curve, "curve", movedCurve});
  if (ranges.fewestYears) doubts.push_back({ScenarioInput::years, "years", movedYears});
  return doubts;
}

base::Result<AvertedEstimate> movedEstimate(const Doubt& doubt, const AvertedInputs& base,
                                            const ScenarioRanges& ranges, bool high) {
  auto found = averted(doubt.moved(base, ranges, high));
  if (found) return found;
  return refused(std::string("With the ") + doubt.name + " at its " + (high ? "high" : "low") +
                 " end: " + found.error().detail);
}

// The risk after loss pulls against the attack rate, so the worst corner is sought, not assumed.
base::Result<base::Done> fillCorners(Scenarios& out, const AvertedInputs& base,
                                     const ScenarioRanges& ranges,
                                     const std::vector<Doubt>& doubts) {
  const std::size_t corners = std::size_t{1} << doubts.size();
  for (std::size_t corner = 0; corner < corners; ++corner) {
    AvertedInputs inputs = base;
    for (std::size_t i = 0; i < doubts.size(); ++i)
      inputs = doubts[i].moved(std::move(inputs), ranges, ((corner >> i) & 1U) == 1);
    auto found = averted(inputs);
    if (!found) return refused("With several ends together: " + found.error().detail);
    if (found->averted < out.low.averted) {
      out.low = *found;
      out.lowInputs = inputs;
    }
    if (found->averted > out.high.averted) {
      out.high = std::move(found).value();
      out.highInputs = std::move(inputs);
    }
  }
  return base::Done{};
}

} // namespace

base::Result<Scenarios> avertedScenarios(const AvertedInputs& base, const ScenarioRanges& ranges) {
  if (auto checked = checkRanges(base, ranges); !checked) return checked.error();
  const auto middle = averted(base);
  if (!middle) return middle.error();
  const auto doubts = doubtsIn(ranges);
  if (doubts.empty())
    return refused("No input has a range, so there are no scenarios; give at least one.");

  Scenarios out{*middle, *middle, *middle, base, base, {}};
  for (const auto& doubt : doubts) {
    const auto low = movedEstimate(doubt, base, ranges, false);
    if (!low) return low.error();
    const auto high = movedEstimate(doubt, base, ranges, true);
    if (!high) return high.error();
    out.bars.push_back({doubt.input, low->averted, high->averted});
  }
  std::stable_sort(
      out.bars.begin(), out.bars.end(),
      [](const ScenarioBar& a, const ScenarioBar& b) { return a.swing() > b.swing(); });
  if (auto filled = fillCorners(out, base, ranges, doubts); !filled) return filled.error();
  return out;
}

base::Result<OwnRetention> ownRetention(std::span<const double> survival, int years) {
  if (years < 0 || years > 100)
    return refused("The years are " + std::to_string(years) + "; give 0 to 100.");
  if (survival.empty())
    return refused("The retention by year is empty; give at least that of the first year.");
  double before = 1;
  for (std::size_t i = 0; i < survival.size(); ++i) {
    const std::string name = "Retention in year " + std::to_string(i + 1);
    if (auto checked = checkShare(name, survival[i]); !checked) return checked.error();
    if (survival[i] > before)
      return refused(name + " is above that of the year before; a lost sealant does not return.");
    before = survival[i];
  }
  if (survival[0] == 0)
    return refused("No sealant was left after one year, so there is no curve from there on.");
  OwnRetention out{survival[0], {}, std::max(0, years - static_cast<int>(survival.size()))};
  const std::size_t known = std::min(survival.size(), static_cast<std::size_t>(years));
  for (std::size_t i = 0; i < known; ++i)
    out.curve.push_back(survival[i] / survival[0]);
  const std::vector<double> usual = defaultRetentionCurve(2);
  for (int i = 0; i < out.yearsCarriedOn; ++i)
    out.curve.push_back(std::max(0.0, out.curve.back() - (usual[0] - usual[1])));
  return out;
}

} // namespace gk::estimates
