#include "estimates/averted/averted.h"
#include "estimates/averted/averted_model.h"

#include <array>
#include <catch2/catch.hpp>

#include <cmath>

using namespace gk;
using namespace gk::estimates;

namespace {

AvertedInputs uncertain(double attackRate, double retention, double se, double n) {
  return {.attackRate = attackRate,
          .retentionYearOne = retention,
          .sealants = 1000,
          .attackRateSe = se,
          .retentionEffectiveN = n};
}

} // namespace

TEST_CASE("The delta method and the simulation agree within simulation error") {
  base::SeededRandom random(51);
  constexpr std::size_t draws = 40'000;
  for (const double a : {.02, .07, .15})
    for (const double r : {.6, .92}) {
      const auto inputs = uncertain(a, r, .02, 10'000);
      const auto delta = averted(inputs).value();
      const auto simulated = simulateAverted(inputs, draws, random).value();
      const double error = delta.standardError.value();
      // four standard errors of a simulated deviation, sd / sqrt(2 draws), and the curvature that
      // a first-order method leaves; a 2.5 % percentile has standard error sd 2.7 / sqrt(draws)
      CHECK(simulated.standardDeviation ==
            Approx(error).margin(error * (4 / std::sqrt(2.0 * draws) + .02 * .02)));
      CHECK(simulated.mean == Approx(delta.averted).margin(.03 * error));
      CHECK(simulated.interval.low == Approx(delta.interval->low).margin(.06 * error));
      CHECK(simulated.interval.high == Approx(delta.interval->high).margin(.06 * error));
    }
}

TEST_CASE("With the uncertainty of a real program the two stay close") {
  base::SeededRandom random(52);
  const auto inputs = uncertain(.07, .92, .15, 250);
  const auto delta = averted(inputs).value();
  const auto simulated = simulateAverted(inputs, 20'000, random).value();
  const double error = delta.standardError.value();
  CHECK(simulated.interval.low == Approx(delta.interval->low).margin(.15 * error));
  CHECK(simulated.interval.high == Approx(delta.interval->high).margin(.15 * error));
}

TEST_CASE("The slopes of the model are its derivatives") {
  base::SeededRandom random(53);
  for (int i = 0; i < 300; ++i) {
    AvertedInputs inputs{.attackRate = .01 + .3 * random.uniform(),
                         .retentionYearOne = random.uniform(),
                         .sealants = 1,
                         .years = 1 + static_cast<int>(random.below(15))};
    inputs.efficacy = random.uniform();
    inputs.relativeRiskAfterLoss = 1.5 * random.uniform();
    const auto model = AvertedModel::of(inputs).value();
    const double a = inputs.attackRate;
    const double r = inputs.retentionYearOne;
    constexpr double h = 1e-6;
    CHECK(model.slopeInRate(a, r) ==
          Approx((model.perSealant(a + h, r) - model.perSealant(a - h, r)) / (2 * h))
              .epsilon(1e-6)
              .margin(1e-7));
    CHECK(model.slopeInRetention(a) ==
          Approx((model.perSealant(a, r + h) - model.perSealant(a, r - h)) / (2 * h))
              .epsilon(1e-6)
              .margin(1e-7));
  }
}

TEST_CASE("The same seed gives the same simulation") {
  base::SeededRandom first(54);
  base::SeededRandom second(54);
  const auto inputs = uncertain(.07, .92, .1, 300);
  const auto one = simulateAverted(inputs, 1000, first).value();
  const auto two = simulateAverted(inputs, 1000, second).value();
  CHECK(one.mean == two.mean);
  CHECK(one.interval == two.interval);
}

TEST_CASE("An input without an error is taken as known and said") {
  auto inputs = uncertain(.07, .92, .1, 300);
  const double both = averted(inputs)->standardError.value();
  inputs.attackRateSe.reset();
  const auto retentionAlone = averted(inputs).value();
  CHECK(retentionAlone.has(AvertedNote::attackRateTakenAsKnown));
  inputs = uncertain(.07, .92, .1, 300);
  inputs.retentionEffectiveN.reset();
  const auto rateAlone = averted(inputs).value();
  CHECK(rateAlone.has(AvertedNote::retentionTakenAsKnown));
  CHECK(both ==
        Approx(std::hypot(retentionAlone.standardError.value(), rateAlone.standardError.value())));
  inputs.attackRateSe.reset();
  const auto known = averted(inputs).value();
  CHECK(!known.interval);
  CHECK(!known.standardError);
}

TEST_CASE("Full retention in the sample still leaves doubt below the estimate") {
  base::SeededRandom random(55);
  const auto inputs = uncertain(.07, 1, .1, 60);
  const auto delta = averted(inputs).value();
  CHECK(delta.has(AvertedNote::retentionAtBoundary));
  CHECK(delta.interval->low < delta.averted);
  CHECK(delta.interval->high >= delta.averted);
  const auto simulated = simulateAverted(inputs, 5000, random).value();
  CHECK(simulated.interval.low < delta.averted);
  CHECK(simulated.interval.high >= delta.averted);
  const auto none = averted(uncertain(.07, 0, .1, 60)).value();
  CHECK(none.interval->low <= Approx(0).margin(1e-12));
  CHECK(none.interval->high > 0);
}

TEST_CASE("An attack rate of zero or one has no interval and says so") {
  base::SeededRandom random(56);
  for (const double a : {0.0, 1.0}) {
    const auto found = averted(uncertain(a, .92, .1, 300)).value();
    CHECK(!found.interval);
    CHECK(found.has(AvertedNote::attackRateAtBoundary));
    CHECK(!simulateAverted(uncertain(a, .92, .1, 300), 1000, random));
  }
}

TEST_CASE("A simulation with too little to draw is refused") {
  base::SeededRandom random(57);
  auto inputs = uncertain(.07, .92, .1, 300);
  CHECK(!simulateAverted(inputs, 99, random));
  inputs.attackRateSe.reset();
  inputs.retentionEffectiveN.reset();
  const auto result = simulateAverted(inputs, 1000, random);
  REQUIRE(!result);
  CHECK(result.error().code == base::ErrorCode::estimateInput);
}

TEST_CASE("Delta intervals stay within none and all on random inputs") {
  base::SeededRandom random(58);
  for (int i = 0; i < 500; ++i) {
    std::array<double, 4> draws{};
    for (double& one : draws)
      one = random.uniform();
    const auto inputs =
        uncertain(.001 + .99 * draws[0], draws[1], 3 * draws[2], 1 + 100 * draws[3]);
    const auto found = averted(inputs).value();
    REQUIRE(found.interval);
    CHECK(found.interval->low >= 0);
    CHECK(found.interval->high <= 1000);
    CHECK(found.interval->low <= found.averted);
    CHECK(found.interval->high >= found.averted);
  }
}
