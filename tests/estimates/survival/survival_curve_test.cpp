#include "estimates/survival/survival_lives.h"

#include <catch2/catch.hpp>

#include <limits>
#include <numeric>

using namespace gk;
using namespace gk::estimates;

namespace {

constexpr double none = -1; // still whole

std::vector<Spell> spellsFrom(std::vector<std::pair<double, double>> ends) {
  std::vector<Spell> out;
  for (const auto& [left, right] : ends)
    out.push_back({.left = left,
                   .right = right == none ? std::nullopt : std::optional(right),
                   .child = out.size()});
  return out;
}

// Radiotherapy arm, months to cosmetic deterioration: Finkelstein and Wolfe 1985, Biometrics
// 41:933-45; as in the data set `cancer` of the R package npsurv.
std::vector<Spell> radiotherapy() {
  return spellsFrom({{0, 5},     {0, 7},     {0, 8},     {4, 11},    {5, 11},    {5, 12},
                     {6, 10},    {7, 14},    {7, 16},    {11, 15},   {11, 18},   {15, none},
                     {17, 25},   {17, 25},   {17, none}, {18, 26},   {18, none}, {19, 35},
                     {22, none}, {24, none}, {24, none}, {25, 37},   {26, 40},   {27, 34},
                     {32, none}, {33, none}, {34, none}, {36, 44},   {36, 48},   {36, none},
                     {36, none}, {37, 44},   {37, none}, {37, none}, {37, none}, {38, none},
                     {40, none}, {45, none}, {46, none}, {46, none}, {46, none}, {46, none},
                     {46, none}, {46, none}, {46, none}, {46, none}});
}

// log-likelihood of a curve, straight from its definition.
double logLikelihoodOf(const SurvivalCurve& curve, const std::vector<Spell>& spells) {
  double out = 0;
  for (const auto& spell : spells) {
    double chance = 0;
    for (const auto& [left, right, mass] : curve.intervals) {
      const bool isPoint = right == left;
      const bool startsWithin = isPoint && spell.right == spell.left ? left == spell.left
                                : isPoint                            ? left > spell.left
                                                                     : left >= spell.left;
      const bool endsWithin = !spell.right || (right && *right <= *spell.right);
      if (startsWithin && endsWithin) chance += mass;
    }
    out += spell.teeth * std::log(chance);
  }
  return out;
}

double totalMass(const SurvivalCurve& curve) {
  return std::accumulate(curve.intervals.begin(), curve.intervals.end(), 0.0,
                         [](double sum, const SurvivalInterval& i) { return sum + i.mass; });
}

} // namespace

TEST_CASE("The breast cosmesis curve has the published masses") {
  // Masses and log-likelihood: docs/methods.md, section 6.
  const auto curve = survivalCurve(radiotherapy()).value();
  const std::vector<SurvivalInterval> published{{4, 5, .0463},   {6, 7, .0334},   {7, 8, .0887},
                                                {11, 12, .0708}, {24, 25, .0926}, {33, 34, .0818},
                                                {38, 40, .1209}, {46, 48, .4656}};
  REQUIRE(curve.intervals.size() == published.size());
  for (std::size_t i = 0; i < published.size(); ++i) {
    CHECK(curve.intervals[i].left == published[i].left);
    CHECK(curve.intervals[i].right == published[i].right);
    CHECK(curve.intervals[i].mass == Approx(published[i].mass).margin(5e-5));
  }
  CHECK(curve.logLikelihood == Approx(-58.0600).margin(5e-5));
  CHECK(curve.gap < 1e-10);
  CHECK(curve.teeth == 46);
  CHECK(curve.failed == 21);
  CHECK(curve.stillWhole == 25);
}

TEST_CASE("Survival is a range inside an interval and one number outside") {
  const auto curve = survivalCurve(radiotherapy()).value();
  CHECK(curve.survivalAt(0) == Interval{1, 1});
  CHECK(curve.survivalAt(4) == Interval{1, 1});
  const double after = 1 - curve.intervals[0].mass;
  CHECK(curve.survivalAt(4.5).low == Approx(after));
  CHECK(curve.survivalAt(4.5).high == 1);
  CHECK(curve.survivalAt(5).low == Approx(after));
  CHECK(curve.survivalAt(5).high == Approx(after));
  CHECK(curve.survivalAt(47).low == 0);
  CHECK(curve.survivalAt(47).high == Approx(.4656).margin(5e-5));
  CHECK(curve.survivalAt(48) == Interval{0, 0});
}

TEST_CASE("With every failure at a known time the curve is the product of survivals") {
  // Kaplan and Meier 1958 by hand: 6 teeth; 1 fails at 2, 1 whole at 3, 2 fail at 5, 2 whole at 9.
  const auto curve =
      survivalCurve(spellsFrom({{2, 2}, {3, none}, {5, 5}, {5, 5}, {9, none}, {9, none}})).value();
  CHECK(curve.survivalAt(1.9) == Interval{1, 1});
  CHECK(curve.survivalAt(2).high == Approx(5.0 / 6));
  CHECK(curve.survivalAt(5).low == Approx(5.0 / 6 * 2 / 4));
  CHECK(curve.survivalAt(9).low == Approx(5.0 / 12));
  CHECK(curve.survivalAt(10).low == 0);
  REQUIRE(!curve.intervals.empty());
  CHECK(curve.intervals[0].left == curve.intervals[0].right);
}

TEST_CASE("The four teeth worked by hand have their masses") {
  // docs/methods.md, section 6
  const auto curve = survivalCurve(spellsFrom({{0, 6}, {6, 12}, {0, 12}, {12, none}})).value();
  REQUIRE(curve.intervals.size() == 3);
  CHECK(curve.intervals[0].mass == Approx(3.0 / 8));
  CHECK(curve.intervals[1].mass == Approx(3.0 / 8));
  CHECK(curve.intervals[2].mass == Approx(1.0 / 4));
}

TEST_CASE("A tooth whole at a time is not at risk of failing at that time") {
  // (0, 6] ends before (6, 12] begins
  const auto curve = survivalCurve(spellsFrom({{0, 6}, {6, 12}})).value();
  REQUIRE(curve.intervals.size() == 2);
  CHECK(curve.survivalAt(6).low == Approx(.5));
  CHECK(curve.survivalAt(6).high == Approx(.5));
}

TEST_CASE("An exact failure at the time of a check stands apart from one after it") {
  const auto curve = survivalCurve(spellsFrom({{6, 6}, {6, 12}, {0, 6}})).value();
  REQUIRE(curve.intervals.size() == 2);
  CHECK(curve.intervals[0].left == 6);
  CHECK(curve.intervals[0].right == 6);
  CHECK(curve.intervals[0].mass == Approx(2.0 / 3));
  CHECK(curve.intervals[1].left == 6);
  CHECK(curve.intervals[1].right == 12);
}

TEST_CASE("One check for all gives the share found whole") {
  auto spells = spellsFrom({{0, 12}, {12, none}});
  spells[0].teeth = 15;
  spells[1].teeth = 85;
  const auto curve = survivalCurve(spells).value();
  CHECK(curve.survivalAt(12).low == Approx(.85));
  CHECK(curve.logLikelihood == Approx(15 * std::log(.15) + 85 * std::log(.85)));
}

TEST_CASE("With no failure the curve is one up to the last check and unknown after it") {
  const auto curve = survivalCurve(spellsFrom({{6, none}, {12, none}})).value();
  CHECK(curve.has(SurvivalNote::noneFailed));
  CHECK(curve.survivalAt(12) == Interval{1, 1});
  CHECK(curve.survivalAt(13) == Interval{0, 1});
  CHECK(curve.logLikelihood == 0);
  REQUIRE(curve.intervals.size() == 1);
  CHECK(!curve.intervals[0].right);
}

TEST_CASE("With every sealant failed the curve ends at zero") {
  const auto curve = survivalCurve(spellsFrom({{0, 6}, {0, 6}, {3, 9}})).value();
  CHECK(curve.has(SurvivalNote::allFailed));
  CHECK(curve.survivalAt(9).high == 0);
}

TEST_CASE("A sealant lost on the day it was placed is a step at time zero") {
  const auto curve = survivalCurve(spellsFrom({{0, 0}, {12, none}})).value();
  CHECK(curve.survivalAt(0).high == Approx(.5));
}

TEST_CASE("Placements without a check are left out of the curve and counted") {
  const auto curve = survivalCurve(spellsFrom({{0, none}, {0, 12}, {12, none}})).value();
  CHECK(curve.has(SurvivalNote::uncheckedSpells));
  CHECK(curve.unchecked == 1);
  CHECK(curve.teeth == 2);
  CHECK(curve.children == 2);
}

TEST_CASE("One child is told") {
  auto spells = spellsFrom({{0, 12}, {12, none}});
  spells[1].child = spells[0].child;
  CHECK(survivalCurve(spells)->has(SurvivalNote::oneChild));
}

TEST_CASE("Bad spells are refused and named by their place") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  for (const Spell bad :
       {Spell{-1, 3}, Spell{nan, 3}, Spell{infinity, {}}, Spell{6, 3}, Spell{0, nan},
        Spell{0, infinity}, Spell{0, 3, 1, -1}, Spell{0, 3, 1, nan}}) {
    const auto found = survivalCurve(std::vector<Spell>{{0, 3}, bad});
    REQUIRE(!found);
    CHECK(found.error().code == base::ErrorCode::estimateInput);
    CHECK_THAT(found.error().detail, Catch::StartsWith("Spell 2: "));
  }
  CHECK(!survivalCurve({}));
  CHECK(!survivalCurve(std::vector<Spell>{{0, {}}}));
  CHECK(!survivalCurve(std::vector<Spell>{{0, 3, 1, 0}}));
}

TEST_CASE("The curve is at the maximum on random programs") {
  base::SeededRandom random(71);
  for (int round = 0; round < 60; ++round) {
    const double step = round % 3 == 0 ? 0 : round % 3 == 1 ? 1 : 6;
    const auto lives = 1 + random.below(80);
    auto spells = drawLives(random, lives, .02 + .9 * random.uniform(), step);
    const auto curve = survivalCurve(spells);
    if (!curve) continue; // no one was checked
    CHECK(curve->gap < 1e-9);
    CHECK(totalMass(*curve) == Approx(1).epsilon(1e-12));
    CHECK(curve->logLikelihood == Approx(logLikelihoodOf(*curve, spells)).epsilon(1e-9));
    // Self-consistency (Efron 1967): no neighbor is better.
    for (std::size_t i = 1; i < curve->intervals.size(); ++i) {
      auto moved = *curve;
      const double shift = .01 * std::min(moved.intervals[i].mass, moved.intervals[i - 1].mass);
      moved.intervals[i].mass += shift;
      moved.intervals[i - 1].mass -= shift;
      CHECK(logLikelihoodOf(moved, spells) < curve->logLikelihood + 1e-9);
    }
  }
}

TEST_CASE("Neither order nor unit nor joining of equal spells changes the curve") {
  base::SeededRandom random(72);
  auto spells = drawLives(random, 40, .2, 1);
  const auto first = survivalCurve(spells).value();
  std::reverse(spells.begin(), spells.end());
  for (auto& spell : spells) {
    spell.left *= 30;
    if (spell.right) spell.right = *spell.right * 30;
    spell.teeth = 3;
  }
  const auto again = survivalCurve(spells).value();
  REQUIRE(again.intervals.size() == first.intervals.size());
  for (std::size_t i = 0; i < first.intervals.size(); ++i) {
    CHECK(again.intervals[i].mass == Approx(first.intervals[i].mass).margin(1e-9));
    CHECK(again.intervals[i].left == Approx(30 * first.intervals[i].left));
  }
  CHECK(again.logLikelihood == Approx(3 * first.logLikelihood));
}

TEST_CASE("A large program gives back the yearly loss it was drawn with") {
  base::SeededRandom random(73);
  const auto curve = survivalCurve(drawLives(random, 5000, .1, 1)).value();
  for (const double years : {1.0, 2.0, 3.0}) {
    const auto [low, high] = curve.survivalAt(12 * years);
    CHECK(low < std::pow(.9, years) + .02);
    CHECK(high > std::pow(.9, years) - .02);
  }
}
