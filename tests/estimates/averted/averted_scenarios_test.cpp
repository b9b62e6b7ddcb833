#include "estimates/averted/averted_scenarios.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

const AvertedInputs usual{.07, .92, 1000};

} // namespace

TEST_CASE("The tornado has one bar an input and the longest first") {
  ScenarioRanges ranges;
  ranges.attackRate = Interval{.06, .08};
  ranges.retentionYearOne = Interval{.90, .94};
  ranges.efficacy = Interval{.81, 1};
  const auto found = avertedScenarios(usual, ranges).value();
  REQUIRE(found.bars.size() == 3);
  CHECK(found.bars[0].swing() >= found.bars[1].swing());
  CHECK(found.bars[1].swing() >= found.bars[2].swing());
  CHECK(found.bars[0].input == ScenarioInput::efficacy);
  for (const auto& bar : found.bars) {
    CHECK(bar.atLow <= found.base.averted);
    CHECK(bar.atHigh >= found.base.averted);
  }
  // The retention bar is proportional: averted is linear in the first year's retention.
  const auto& retention = found.bars[2];
  CHECK(retention.input == ScenarioInput::retentionYearOne);
  CHECK(retention.atLow == Approx(found.base.averted * .90 / .92));
}

TEST_CASE("Low and high put every end together") {
  ScenarioRanges ranges;
  ranges.attackRate = Interval{.06, .08};
  ranges.retentionYearOne = Interval{.90, .94};
  ranges.efficacy = Interval{.81, 1};
  const auto found = avertedScenarios(usual, ranges).value();
  AvertedInputs low = usual;
  low.attackRate = .06;
  low.retentionYearOne = .90;
  low.efficacy = .81;
  CHECK(found.low.averted == Approx(averted(low)->averted));
  CHECK(found.lowInputs.efficacy == .81);
  CHECK(found.high.averted > found.base.averted);
  CHECK(found.highInputs.attackRate == .08);
  CHECK(found.base.averted == Approx(342.38).margin(5e-3));
}

TEST_CASE("The worst corner is sought where inputs pull against each other") {
  // On forty years a higher attack rate leaves less to avert, so the low scenario takes it.
  AvertedInputs longRun = usual;
  longRun.years = 40;
  ScenarioRanges ranges;
  ranges.attackRate = Interval{.05, .3};
  const auto found = avertedScenarios(longRun, ranges).value();
  CHECK(found.bars[0].atHigh < found.bars[0].atLow);
  CHECK(found.lowInputs.attackRate == .3);
}

TEST_CASE("Curves and years can be doubted too") {
  ScenarioRanges ranges;
  ranges.lowCurve = {1, .8, .6, .5, .4, .3, .2, .1, 0, 0, 0, 0};
  ranges.highCurve = std::vector<double>(12, 1.0);
  ranges.fewestYears = 4;
  ranges.mostYears = 12;
  ranges.relativeRiskAfterLoss = Interval{.9, 1.2};
  const auto found = avertedScenarios(usual, ranges).value();
  CHECK(found.bars.size() == 3);
  CHECK(found.highInputs.years == 12);
  CHECK(found.highInputs.curve == ranges.highCurve);
  CHECK(found.low.averted < found.base.averted);
}

TEST_CASE("Scenarios refuse ranges that do not hold the base and halves of a pair") {
  ScenarioRanges ranges;
  CHECK(!avertedScenarios(usual, ranges));
  ranges.attackRate = Interval{.08, .09};
  CHECK(!avertedScenarios(usual, ranges));
  ranges.attackRate = Interval{.08, .06};
  CHECK(!avertedScenarios(usual, ranges));
  ranges.attackRate = Interval{std::nan(""), .09};
  CHECK(!avertedScenarios(usual, ranges));
  ranges.attackRate = Interval{.06, 1.5};
  const auto found = avertedScenarios(usual, ranges);
  REQUIRE(!found);
  CHECK(found.error().detail.find("With the attack rate at its high end") == 0);
  ranges.attackRate = std::nullopt;
  ranges.lowCurve = {1};
  CHECK(!avertedScenarios(usual, ranges));
  ranges.lowCurve = {};
  ranges.fewestYears = 3;
  CHECK(!avertedScenarios(usual, ranges));
  ranges.mostYears = 8;
  CHECK(!avertedScenarios(usual, ranges));
}

TEST_CASE("A program's own survival curve becomes the model's retention") {
  const std::vector<double> survival{.9, .81, .72};
  const auto found = ownRetention(survival, 5).value();
  CHECK(found.yearOne == .9);
  CHECK(found.yearsCarriedOn == 2);
  REQUIRE(found.curve.size() == 5);
  CHECK(found.curve[0] == 1);
  CHECK(found.curve[2] == Approx(.8));
  CHECK(found.curve[3] == Approx(.75));
  CHECK(found.curve[4] == Approx(.70));
  const auto three =
      averted({.07, found.yearOne, 1000, 3, ownRetention(survival, 3)->curve}).value();
  CHECK(three.perSealant == Approx(.07 * (.9 * .93 * .93 + .81 * .93 + .72)));
  CHECK(averted({.07, found.yearOne, 1000, 5, found.curve}));
  CHECK(ownRetention(survival, 0)->curve.empty());
  CHECK(ownRetention(std::vector<double>{.9, .02}, 4)->curve.back() == 0);
}

TEST_CASE("A survival curve that cannot be is refused") {
  CHECK(!ownRetention({}, 5));
  CHECK(!ownRetention(std::vector<double>{.9, .95}, 5));
  CHECK(!ownRetention(std::vector<double>{1.1}, 5));
  CHECK(!ownRetention(std::vector<double>{std::nan("")}, 5));
  CHECK(!ownRetention(std::vector<double>{0, 0}, 5));
  CHECK(!ownRetention(std::vector<double>{.9}, -1));
  CHECK(!ownRetention(std::vector<double>{.9}, 101));
}
