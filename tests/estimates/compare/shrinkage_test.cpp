#include "estimates/compare/shrinkage.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

const std::vector<Unit> schools{{40, 38}, {12, 6},  {25, 24}, {60, 41}, {8, 8},
                                {30, 29}, {18, 10}, {50, 49}, {22, 15}, {35, 34}};

double logBeta(double a, double b) {
  return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b);
}

/// The textbook form of the beta-binomial log-likelihood, without coefficients.
double textbook(const std::vector<Unit>& units, double alpha, double beta) {
  double sum = 0;
  for (const auto& [n, x] : units)
    sum += logBeta(x + alpha, n - x + beta) - logBeta(alpha, beta);
  return sum;
}

} // namespace

TEST_CASE("The fitted spread is the top of the beta-binomial likelihood") {
  const auto found = shrunken(schools).value();
  const double alpha = found.alpha.value();
  const double beta = found.beta.value();
  CHECK(found.logLikelihood == Approx(textbook(schools, alpha, beta)).epsilon(1e-12));
  for (const double a : {.9, .99, 1.01, 1.1})
    for (const double b : {.9, .99, 1.01, 1.1})
      CHECK(textbook(schools, alpha * a, beta * b) < found.logLikelihood);
  CHECK(found.mean == Approx(alpha / (alpha + beta)));
  CHECK(found.overdispersion == Approx(1 / (alpha + beta + 1)));
  CHECK(found.notes.empty());
}

TEST_CASE("Shrunken shares lie between the raw share and the mean") {
  const auto found = shrunken(schools).value();
  for (std::size_t i = 0; i < schools.size(); ++i) {
    const auto& unit = found.units[i];
    CHECK(unit.shrunken == Approx((schools[i].kept + *found.alpha) /
                                  (schools[i].examined + *found.alpha + *found.beta)));
    CHECK(unit.shrunken >= std::min(*unit.raw, found.mean) - 1e-12);
    CHECK(unit.shrunken <= std::max(*unit.raw, found.mean) + 1e-12);
  }
  // all 8 of 8 kept is not 100 %
  CHECK(found.units[4].raw == 1.0);
  CHECK(found.units[4].shrunken < .97);
  CHECK(found.units[4].ownWeight < found.units[3].ownWeight);
}

TEST_CASE("Units no more different than chance all stand at the common share") {
  const auto found =
      shrunken(std::vector<Unit>{{20, 18}, {40, 36}, {30, 27}, {10, 9}, {50, 45}}).value();
  CHECK(found.has(ShrinkageNote::noOverdispersion));
  CHECK(found.has(ShrinkageNote::fewUnits));
  CHECK(!found.alpha);
  CHECK(found.overdispersion == 0);
  for (const auto& unit : found.units) {
    CHECK(unit.shrunken == Approx(.9));
    CHECK(unit.ownWeight == 0);
  }
}

TEST_CASE("All or none everywhere is its own limit") {
  const auto all = shrunken(std::vector<Unit>(10, {9, 9})).value();
  CHECK(all.has(ShrinkageNote::allOrNone));
  CHECK(all.mean == 1);
  CHECK(all.units[3].shrunken == 1);
  CHECK(all.logLikelihood == 0);
  const auto none = shrunken(std::vector<Unit>(10, {9, 0})).value();
  CHECK(none.units[3].shrunken == 0);
}

TEST_CASE("Units that are each all or none are not shrunk") {
  std::vector<Unit> units(6, {20, 20});
  units.push_back({20, 0});
  units.push_back({15, 0});
  const auto found = shrunken(units).value();
  CHECK(found.has(ShrinkageNote::eachAllOrNone));
  CHECK(!found.alpha);
  CHECK(found.overdispersion == 1);
  CHECK(found.mean == Approx(.75).margin(1e-3)); // six of eight units
  CHECK(found.units[0].shrunken == 1);
  CHECK(found.units[6].shrunken == 0);
}

TEST_CASE("A single unit and single teeth show no spread of their own") {
  const auto one = shrunken(std::vector<Unit>{{20, 15}}).value();
  CHECK(one.has(ShrinkageNote::oneUnit));
  CHECK(one.units[0].shrunken == Approx(.75));
  const auto teeth = shrunken(std::vector<Unit>{{1, 1}, {1, 0}, {1, 1}, {1, 1}}).value();
  CHECK(teeth.has(ShrinkageNote::noOverdispersion));
  CHECK(teeth.mean == .75);
}

TEST_CASE("A unit without teeth stands at the mean") {
  auto units = schools;
  units.push_back({0, 0});
  const auto found = shrunken(units).value();
  CHECK(found.has(ShrinkageNote::emptyUnits));
  CHECK(!found.units.back().raw);
  CHECK(found.units.back().shrunken == found.mean);
  CHECK(*found.alpha == Approx(*shrunken(schools)->alpha).epsilon(1e-9));
}

TEST_CASE("Fractional counts move the fit smoothly between whole ones") {
  auto nearly = schools;
  nearly[1] = {12.001, 6.0005};
  const double whole = shrunken(schools)->alpha.value();
  CHECK(shrunken(nearly)->alpha.value() == Approx(whole).epsilon(2e-3));
}

TEST_CASE("Large units are fitted as well") {
  std::vector<Unit> units;
  for (int i = 0; i < 12; ++i)
    units.push_back({20000, 17000.0 + 150 * (i % 5)});
  const auto found = shrunken(units).value();
  REQUIRE(found.alpha);
  CHECK(found.logLikelihood == Approx(textbook(units, *found.alpha, *found.beta)).epsilon(1e-9));
  CHECK(found.units[0].ownWeight > .9);
}

TEST_CASE("Shrinkage refuses what it cannot use") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(!shrunken({}));
  CHECK(!shrunken(std::vector<Unit>{{0, 0}}));
  for (const Unit bad : {Unit{5, 6}, Unit{-1, 0}, Unit{5, nan}, Unit{nan, 1}, Unit{2e6, 1}}) {
    const auto found = shrunken(std::vector<Unit>{{5, 4}, bad});
    REQUIRE(!found);
    CHECK(found.error().detail.find("Unit 2") == 0);
  }
}
