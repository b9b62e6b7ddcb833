#include "estimates/averted/money.h"

#include "estimates/averted/present_value.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

TEST_CASE("Without discounting the savings are the averted cavities") {
  const AvertedInputs inputs{.07, .92, 1000};
  const auto found = money(inputs, {20'000, 150, 0}).value();
  CHECK(found.averted == Approx(342.38).margin(5e-3));
  CHECK(found.discountedAverted == Approx(found.averted));
  CHECK(found.savings == Approx(150 * found.averted));
  CHECK(found.netCost == Approx(20'000 - 150 * found.averted));
  CHECK(found.costPerAverted.value() == Approx(20'000 / found.averted));
  CHECK(found.breakEvenCost.value() == Approx(*found.costPerAverted));
  CHECK(found.benefitCost.value() == Approx(150 * found.averted / 20'000));
  CHECK(found.has(MoneyNote::paysForItself));
}

TEST_CASE("Discounting places each spared cavity in its year") {
  // a = .07, r1 = .92, two years: spared by year 1 .0644, by year 2 .0644 x .93 + .06118 =
  // .121072, so .056672 more in year 2.
  const auto found = money({.07, .92, 100, 2}, {500, 100, .03}).value();
  CHECK(found.discountedAverted == Approx(6.44 / 1.03 + 5.6672 / 1.0609));
  CHECK(found.discountedAverted < found.averted);
  CHECK(found.breakEvenCost.value() > found.costPerAverted.value());
  const auto even = money({.07, .92, 100, 2}, {500, *found.breakEvenCost, .03}).value();
  CHECK(even.netCost == Approx(0).margin(1e-9));
  CHECK(even.netCostPerAverted.value() == Approx(0).margin(1e-9));
}

TEST_CASE("Benefits and cost of Griffin 2017 come out as published") {
  // Am J Prev Med 52:407-15: cost $11.64, $6.29 a year for 4 years at 3 % worth $23.37, net $11.73.
  const double worth = presentValue(6.29, 4, .03).value();
  CHECK(worth - 11.64 == Approx(11.73).margin(.02));
}

TEST_CASE("Money with nothing averted has no cost per cavity") {
  for (const AvertedInputs& inputs :
       {AvertedInputs{0, .92, 1000}, AvertedInputs{.07, 0, 1000}, AvertedInputs{.07, .9, 0}}) {
    const auto found = money(inputs, {500, 100}).value();
    CHECK(found.has(MoneyNote::nothingAverted));
    CHECK(!found.costPerAverted);
    CHECK(!found.breakEvenCost);
    CHECK(found.netCost == Approx(500));
  }
  CHECK(!money({.07, .92, 10}, {0, 100})->benefitCost);
}

TEST_CASE("Money refuses amounts that cannot be") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(!money({.07, .92, 10}, {-1, 100}));
  CHECK(!money({.07, .92, 10}, {nan, 100}));
  CHECK(!money({.07, .92, 10}, {1, -100}));
  CHECK(!money({.07, .92, 10}, {1, 100, 1.5}));
  CHECK(!money({.07, .92, 10}, {1, 100, nan}));
  CHECK(!money({1.07, .92, 10}, {1, 100}));
}
