#include "base/random.h"
#include "estimates/attack_rate/attack_rate_schools.h"
#include "estimates/numbers/distributions.h"
#include "estimates/numbers/random_effects.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

using Schools = std::vector<std::vector<Exposure>>;

std::vector<Exposure> drawSchool(base::Random& random, std::size_t children, double annual) {
  std::vector<Exposure> out;
  for (std::size_t child = 0; child < children; ++child) {
    const double years = .5 + 3 * random.uniform();
    double affected = 0;
    for (int tooth = 0; tooth < 4; ++tooth)
      affected += random.uniform() < 1 - std::pow(1 - annual, years) ? 1 : 0;
    out.push_back({years, 4, affected, child});
  }
  return out;
}

} // namespace

TEST_CASE("Random effects of equal variances have their closed form") {
  // y 1 2 3 4 5, v .5: sample variance 2.5, so tau squared 2 by both methods and Q = 10 / .5
  const auto found = randomEffects({{1, .5}, {2, .5}, {3, .5}, {4, .5}, {5, .5}});
  CHECK(found.mean == Approx(3));
  CHECK(found.tauSquared == Approx(2).epsilon(1e-10));
  CHECK(found.tauSquaredMoments == Approx(2));
  CHECK(found.q == Approx(20));
  CHECK(found.variance == Approx(.5));
  CHECK(found.adjustedVariance == Approx(.5));
}

TEST_CASE("Estimates that differ less than chance have no variance between them") {
  const auto found = randomEffects({{1, .5}, {1.1, .4}, {.9, .6}});
  CHECK(found.tauSquared == 0);
  CHECK(found.tauSquaredMoments == 0);
  CHECK(found.adjustedVariance == found.variance);
  CHECK(randomEffects({{1, .5}, {1, .4}}).tauSquared == 0);
  CHECK(randomEffects({{1, .5}}).variance == .5);
}

TEST_CASE("A small school is drawn to the program more than a large one") {
  base::SeededRandom random(91);
  Schools schools;
  for (int i = 0; i < 10; ++i)
    schools.push_back(drawSchool(random, 60, .03 + .02 * i));
  schools.push_back(drawSchool(random, 3, .4));
  schools.push_back(drawSchool(random, 400, .4));
  const auto found = schoolRates(schools).value();
  CHECK(found.tauSquared > 0);
  const auto& small = found.schools[10];
  const auto& large = found.schools[11];
  CHECK(small.ownWeight < large.ownWeight);
  CHECK(large.ownWeight > .9);
  for (const auto& school : found.schools) {
    const double between =
        (school.shrunken - found.annual) * (school.shrunken - school.raw->annual);
    CHECK(between <= 1e-12);
    CHECK(school.interval.low < school.shrunken);
    CHECK(school.interval.high > school.shrunken);
  }
  CHECK(found.prediction->low < found.interval.low);
  CHECK(found.prediction->high > found.interval.high);
}

TEST_CASE("Schools alike share one rate") {
  const Schools schools(9, {{2, 4, 1, 1}, {2, 4, 0, 2}, {3, 4, 1, 3}});
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::tauAtZero));
  for (const auto& school : found.schools) {
    CHECK(school.shrunken == Approx(school.raw->annual));
    CHECK(school.ownWeight == Approx(2.0 / 8)); // 1 - (9 - 3) / (9 - 1)
  }
  CHECK(!found.has(SchoolRatesNote::fewSchools));
}

TEST_CASE("A school with none affected takes part with half a molar") {
  base::SeededRandom random(92);
  Schools schools;
  for (int i = 0; i < 8; ++i)
    schools.push_back(drawSchool(random, 30, .05 + .03 * i));
  schools.push_back({{2, 4, 0, 1}, {2, 4, 0, 2}});
  schools.push_back({{2, 4, 4, 1}, {2, 4, 4, 2}});
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::halfMolars));
  CHECK(found.schools[8].hasHalfMolars);
  CHECK(found.schools[8].raw->annual == 0);
  CHECK(found.schools[8].shrunken > 0);
  CHECK(found.schools[8].shrunken < found.annual);
  CHECK(found.schools[9].shrunken < 1);
  CHECK(found.schools[9].shrunken > found.annual);
}

TEST_CASE("A school with nothing to say is given the program rate and its spread") {
  base::SeededRandom random(93);
  Schools schools;
  for (int i = 0; i < 8; ++i)
    schools.push_back(drawSchool(random, 30, .05 + .03 * i));
  schools.push_back({});
  schools.push_back({{.1, 4, 0, 1}});
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::emptySchools));
  for (const std::size_t i : {8U, 9U}) {
    CHECK(!found.schools[i].raw);
    CHECK(found.schools[i].ownWeight == 0);
    CHECK(found.schools[i].shrunken == found.annual);
    CHECK(found.schools[i].interval == *found.prediction);
  }
}

TEST_CASE("One school keeps its own rate") {
  const Schools schools{{{2, 4, 1, 1}, {2, 4, 0, 2}, {3, 4, 1, 3}}};
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::oneSchool));
  CHECK(found.schools[0].shrunken == Approx(found.schools[0].raw->annual));
  CHECK(found.schools[0].ownWeight == 1);
  CHECK(found.annual == Approx(found.schools[0].raw->annual));
  CHECK(!found.prediction);
  CHECK(!found.qP);
}

TEST_CASE("Under four schools nothing is shrunken") {
  const Schools schools{{{2, 4, 1, 1}, {2, 4, 0, 2}}, {{2, 4, 2, 1}, {2, 4, 1, 2}}, {{3, 4, 1, 3}}};
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::fewSchools));
  for (const auto& school : found.schools) {
    CHECK(school.shrunken == Approx(school.raw->annual));
    CHECK(school.ownWeight == 1);
  }
}

TEST_CASE("Programs with none affected anywhere have rates above zero by half molars alone") {
  const Schools schools(5, {{2, 4, 0, 1}, {2, 4, 0, 2}});
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::halfMolars));
  CHECK(found.tauSquared == 0);
  CHECK(found.annual > 0);
  CHECK(found.annual < .06);
}

TEST_CASE("Schools of one child take its molars as alike") {
  const Schools schools{{{2, 4, 1, 1}}, {{2, 4, 2, 1}}, {{3, 4, 0, 1}}};
  const auto found = schoolRates(schools).value();
  CHECK(found.has(SchoolRatesNote::fullyAlike));
  CHECK(found.has(SchoolRatesNote::fewSchools));
  CHECK(found.designEffect == 4);
  CHECK(std::isfinite(found.interval.low + found.interval.high));
}

TEST_CASE("Schools that cannot be are refused and named") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto found = schoolRates(Schools{{{2, 4, 1, 1}}, {{2, 4, 1, 1}, {nan, 4, 1, 2}}});
  REQUIRE(!found);
  CHECK(found.error().code == base::ErrorCode::estimateInput);
  CHECK_THAT(found.error().detail, Catch::StartsWith("School 2, Row 2: "));
  CHECK(!schoolRates({}));
  CHECK(!schoolRates(Schools{{}, {{.1, 4, 1, 1}}}));
  CHECK(!schoolRates(Schools{{{2, 4, 1, 1}}}, 0));
}

TEST_CASE("Shrunken rates lie nearer the truth than raw ones and cover it") {
  base::SeededRandom random(94);
  double rawError = 0;
  double shrunkenError = 0;
  int covered = 0;
  int count = 0;
  for (int round = 0; round < 40; ++round) {
    Schools schools;
    std::vector<double> truths;
    for (int i = 0; i < 20; ++i) {
      truths.push_back(1 - std::exp(-std::exp(std::log(.08) + .4 * standardNormal(random))));
      schools.push_back(drawSchool(random, 12, truths.back()));
    }
    const auto found = schoolRates(schools).value();
    for (std::size_t i = 0; i < truths.size(); ++i) {
      rawError += std::pow(found.schools[i].raw->annual - truths[i], 2);
      shrunkenError += std::pow(found.schools[i].shrunken - truths[i], 2);
      const auto [low, high] = found.schools[i].interval;
      covered += low <= truths[i] && truths[i] <= high ? 1 : 0;
      ++count;
    }
  }
  CHECK(shrunkenError < .8 * rawError);
  CHECK(covered > .92 * count);
  CHECK(covered < .98 * count);
}
