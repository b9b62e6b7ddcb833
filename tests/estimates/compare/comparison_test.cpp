#include "estimates/compare/comparison.h"
#include "estimates/numbers/holm.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

// Rabbits given penicillin at once or after a delay, cured or died, by dose: Agresti 1990,
// Categorical Data Analysis, and the help page of R's mantelhaen.test.
const std::vector<Stratum> rabbits{
    {0, 6, 0, 5}, {3, 3, 0, 6}, {6, 0, 2, 4}, {5, 1, 6, 0}, {2, 0, 5, 0}};

} // namespace

TEST_CASE("Mantel-Haenszel reproduces the rabbits of Agresti") {
  // Published: R's help page for mantelhaen.test.
  const auto found = compare(rabbits).value();
  CHECK(found.oddsRatio.value() == Approx(7));
  CHECK(found.interval->low == Approx(1.026713).margin(5e-7));
  CHECK(found.interval->high == Approx(47.725133).margin(5e-7));
  CHECK(found.chiSquared.value() == Approx(3.9286).margin(5e-5));
  CHECK(found.p.value() == Approx(.04747).margin(5e-6));
  CHECK(found.strata == 5);
  CHECK(found.informativeStrata == 3); // the lowest and the highest dose say nothing
  CHECK(found.teeth == 54);
  CHECK(found.has(ComparisonNote::uninformativeStrata));
  CHECK(found.has(ComparisonNote::smallNumbers));
  CHECK(!found.adjustedP);
}

TEST_CASE("A stratum with a zero margin or without teeth changes nothing") {
  auto more = rabbits;
  more.push_back({0, 0, 0, 0});
  more.push_back({4, 2, 0, 0}); // one side alone
  more.push_back({1, 0, 0, 0}); // one tooth
  const auto found = compare(more).value();
  const auto plain = compare(rabbits).value();
  CHECK(found.oddsRatio == plain.oddsRatio);
  CHECK(found.chiSquared == plain.chiSquared);
  CHECK(found.interval == plain.interval);
  CHECK(found.has(ComparisonNote::emptyStrata));
}

TEST_CASE("One stratum gives the plain odds ratio and its Woolf variance") {
  // 60 of 80 against 45 of 75: odds ratio 60 x 30 / (20 x 45) = 2. For one table Robins, Breslow
  // and Greenland's variance is 1/a + 1/b + 1/c + 1/d.
  const auto found = compare(std::vector<Stratum>{{60, 20, 45, 30}}).value();
  CHECK(found.oddsRatio.value() == Approx(2));
  CHECK(found.logVariance.value() == Approx(1 / 60.0 + 1 / 20.0 + 1 / 45.0 + 1 / 30.0));
  // By hand: expected 80 x 105 / 155 = 54.194, variance 80 x 75 x 105 x 50 / (155^2 x 154) =
  // 8.5138, (5.8065 - .5)^2 / 8.5138.
  CHECK(found.chiSquared.value() == Approx(3.3073).margin(1e-3));
  CHECK(found.notes.empty());
}

TEST_CASE("Swapping the sides inverts the odds ratio and keeps the test") {
  std::vector<Stratum> swapped;
  for (const auto& [a, b, c, d] : rabbits)
    swapped.push_back({c, d, a, b});
  const auto found = compare(swapped).value();
  CHECK(found.oddsRatio.value() == Approx(1.0 / 7));
  CHECK(found.interval->low == Approx(1 / 47.725133));
  CHECK(found.p.value() == Approx(.04747).margin(5e-6));
}

TEST_CASE("An odds ratio at its edge is said and never a number that is none") {
  const auto zero = compare(std::vector<Stratum>{{0, 5, 4, 3}}).value();
  CHECK(zero.oddsRatio == 0.0);
  CHECK(!zero.interval);
  CHECK(zero.has(ComparisonNote::oddsRatioZero));
  CHECK(zero.p.value() < 1);
  const auto unbounded = compare(std::vector<Stratum>{{5, 0, 3, 4}}).value();
  CHECK(!unbounded.oddsRatio);
  CHECK(!unbounded.interval);
  CHECK(unbounded.has(ComparisonNote::oddsRatioUnbounded));
  CHECK(unbounded.chiSquared.value() > 0);
  for (const Stratum all : {Stratum{5, 0, 6, 0}, Stratum{0, 5, 0, 6}, Stratum{5, 1, 0, 0}}) {
    const auto nothing = compare(std::vector<Stratum>{all}).value();
    CHECK(nothing.has(ComparisonNote::nothingToCompare));
    CHECK(!nothing.oddsRatio);
    CHECK(!nothing.p);
  }
}

TEST_CASE("No difference at all gives odds ratio one and p one") {
  const auto found = compare(std::vector<Stratum>{{30, 10, 30, 10}, {12, 6, 12, 6}}).value();
  CHECK(found.oddsRatio.value() == Approx(1));
  CHECK(found.chiSquared.value() == Approx(0).margin(1e-12));
  CHECK(found.p.value() == Approx(1));
}

TEST_CASE("Several comparisons carry Holm's p and a single one does not") {
  const std::vector<std::vector<Stratum>> several{
      rabbits, {{60, 20, 45, 30}}, {{5, 0, 6, 0}}, {{300, 10, 200, 60}}};
  const auto found = compareSeveral(several).value();
  REQUIRE(found.size() == 4);
  CHECK(found[0].adjustedP.value() == Approx(2 * found[0].p.value()));
  CHECK(found[1].adjustedP.value() == Approx(2 * found[0].p.value())); // never below the one before
  CHECK(!found[2].adjustedP);
  CHECK(found[3].adjustedP.value() == Approx(3 * found[3].p.value()));
  for (const auto& one : found)
    CHECK(one.has(ComparisonNote::severalComparisons));
  const auto single = compareSeveral(std::vector<std::vector<Stratum>>{rabbits}).value();
  CHECK(!single[0].adjustedP);
  CHECK(!single[0].has(ComparisonNote::severalComparisons));
  CHECK(compareSeveral({})->empty());
}

TEST_CASE("Holm's method steps down and never falls") {
  // As R: p.adjust(c(.01, .04, .03, .005), "holm").
  const std::vector<double> p{.01, .04, .03, .005};
  const auto found = holmAdjusted(p).value();
  CHECK(found[0] == Approx(.03));
  CHECK(found[1] == Approx(.06));
  CHECK(found[2] == Approx(.06));
  CHECK(found[3] == Approx(.02));
  CHECK(holmAdjusted({})->empty());
  CHECK(holmAdjusted(std::vector<double>{.9, .8}).value() == std::vector<double>{1, 1});
  CHECK(!holmAdjusted(std::vector<double>{.9, std::nan("")}));
  CHECK(!holmAdjusted(std::vector<double>{-.1}));
}

TEST_CASE("Impossible counts in a comparison are refused by place") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const Stratum bad : {Stratum{1, -1, 2, 3}, Stratum{1, nan, 2, 3}, Stratum{1, 2, 2.5, 3},
                            Stratum{1, 2, 2, std::numeric_limits<double>::infinity()}}) {
    const auto found = compare(std::vector<Stratum>{{1, 2, 3, 4}, bad});
    REQUIRE(!found);
    CHECK(found.error().detail.find("Stratum 2") == 0);
    const auto several = compareSeveral(std::vector<std::vector<Stratum>>{rabbits, {bad}});
    REQUIRE(!several);
    CHECK(several.error().detail.find("Comparison 2: Stratum 1") == 0);
  }
  CHECK(!compare({}));
  CHECK(!compare(std::vector<Stratum>(3, {0, 0, 0, 0})));
  CHECK(!compare(rabbits, .2));
}
