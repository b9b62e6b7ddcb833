#include "reports/decay/true_sentences.h"

#include "estimates/compare/shrinkage.h"
#include "reports/print/cells.h"

#include <algorithm>

namespace gk::reports {

namespace {

constexpr double equalWeight = 0.0005; ///< half of what the table prints
/// The middle half of what reviews found of efficacy at two years: docs/methods.md.
constexpr estimates::Interval reviewsFound{0.74, 0.88};

bool goesByTeeth(std::span<const DrawnUnit> units) {
  return std::ranges::all_of(units, [&](const DrawnUnit& one) {
    return std::ranges::all_of(units, [&](const DrawnUnit& other) {
      return one.teeth >= other.teeth || one.ownWeight <= other.ownWeight + equalWeight;
    });
  });
}

struct Moved {
  estimates::ScenarioInput input;
  bool inLow;
  bool inHigh;
};

std::vector<Moved> movedInputs(const estimates::Scenarios& found,
                               const estimates::AvertedInputs& base) {
  using estimates::ScenarioInput;
  const auto& low = found.lowInputs;
  const auto& high = found.highInputs;
  return {{ScenarioInput::attackRate, low.attackRate != base.attackRate,
           high.attackRate != base.attackRate},
          {ScenarioInput::retentionYearOne, low.retentionYearOne != base.retentionYearOne,
           high.retentionYearOne != base.retentionYearOne},
          {ScenarioInput::efficacy, low.efficacy != base.efficacy, high.efficacy != base.efficacy},
          {ScenarioInput::relativeRiskAfterLoss,
           low.relativeRiskAfterLoss != base.relativeRiskAfterLoss,
           high.relativeRiskAfterLoss != base.relativeRiskAfterLoss}};
}

std::string inputsWhere(const std::vector<Moved>& moved, auto where) {
  std::vector<std::string> words;
  for (const auto& one : moved) {
    if (!where(one)) continue;
    auto name = inputWords(one.input);
    name.front() = static_cast<char>(name.front() - 'A' + 'a');
    words.push_back(std::move(name));
  }
  return words.empty() ? "nothing" : base::join(words, ", ");
}

} // namespace

std::string inputWords(estimates::ScenarioInput input) {
  using estimates::ScenarioInput;
  switch (input) {
  case ScenarioInput::attackRate:
    return "Attack rate";
  case ScenarioInput::retentionYearOne:
    return "Teeth protected at one year";
  case ScenarioInput::efficacy:
    return "Protection while retained";
  case ScenarioInput::relativeRiskAfterLoss:
    return "Risk after loss";
  case ScenarioInput::curve:
    return "Later retention";
  case ScenarioInput::years:
    return "Years";
  }
  base::fail("no such input");
}

std::string drawnWords(std::span<const DrawnUnit> units, std::string_view what) {
  if (units.size() < 2) return {};
  const auto [least, most] = std::ranges::minmax(units, {}, &DrawnUnit::ownWeight);
  if (most.ownWeight - least.ownWeight <= equalWeight)
    return "Each school's figure is adjusted toward the program average by the same amount: "
           "its own weight is " +
           shareOf(most.ownWeight).text() + "%.";
  if (goesByTeeth(units))
    return "The fewer its " + std::string(what) +
           ", the more a school's figure is adjusted toward the program average.";
  return "How far a school's figure is adjusted toward the program average depends on "
         "how precisely it is known, which is not its number of " +
         std::string(what) + " alone.";
}

std::string notAdjustedWords() {
  return "No school's figure is adjusted toward the program average: fewer than " +
         std::to_string(estimates::fewestToAdjust) +
         " schools have figures, which does not tell how much schools differ.";
}

std::string noDifferenceWords() {
  return "No difference between schools beyond chance was found, which does not rule one out.";
}

std::string endsWords(const estimates::Scenarios& scenarios, const estimates::AvertedInputs& base) {
  const auto moved = movedInputs(scenarios, base);
  const auto isStill = [](const Moved& one) { return !one.inLow && !one.inHigh; };
  const auto still = std::ranges::any_of(moved, isStill)
                         ? "In neither moved: " + inputsWhere(moved, isStill) + ". "
                         : std::string();
  return "Low moves to its least favorable end at once: " +
         inputsWhere(moved, [](const Moved& one) { return one.inLow; }) +
         ". High moves to its most favorable end: " +
         inputsWhere(moved, [](const Moved& one) { return one.inHigh; }) + ". " + still +
         "These are scenarios, not a confidence interval.";
}

bool isAssumed(const WhatIf& whatIf) {
  return whatIf.attackRate || whatIf.retentionYearOne || whatIf.efficacy != WhatIf{}.efficacy;
}

std::string baseWords(const WhatIf& whatIf) {
  return isAssumed(whatIf) ? "with your figures" : "as measured";
}

std::string reviewWords(const estimates::AvertedInputs& inputs) {
  auto early = inputs;
  early.years = 2;
  early.curve.clear();
  const auto found = estimates::averted(early);
  if (!found || !found->preventedFraction) return {};
  const double prevented = *found->preventedFraction;
  const bool isBetween = reviewsFound.low <= prevented && prevented <= reviewsFound.high;
  const auto relation =
      prevented > estimates::cautiousEfficacy + equalWeight
          ? (isBetween ? "above the median of published reviews but within their middle half"
                       : "more than most published reviews found")
      : prevented < estimates::cautiousEfficacy - equalWeight
          ? (isBetween ? "below the median of published reviews but within their middle half"
                       : "less than most published reviews found")
          : "as much as the median of published reviews";
  return "At two years these inputs prevent " + shareOf(prevented).text() + "% of the decay, " +
         relation + " (median 81%, interquartile 74-88).";
}

std::string ageWords(const estimates::RiskByAge& age) {
  if (age.bands.size() < 2) return {};
  std::vector<std::string> bands;
  for (const auto& band : age.bands)
    bands.push_back((band.until ? base::fixed(band.from, band.from < 1 ? 2 : 0) + " to " +
                                      base::fixed(*band.until, 0) + " years erupted: "
                                : base::fixed(band.from, 0) + " or more years erupted: ") +
                    shareOf(band.rate.annual).text() + " (" +
                    percentRange(band.rate.toRead().low, band.rate.toRead().high) + ")");
  return "By time in the mouth, % a year (95% CI, students as clusters): " +
         base::join(bands, "; ") +
         ". This does not show whether the risk changes with age: molars erupt at "
         "ages that differ by a year or more between students, only the mean is known "
         "here, and that alone makes a steady rate look changing.";
}

} // namespace gk::reports
