#include "estimates/attack_rate/attack_rate.h"

#include "base/random.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

// Children screened at 6.5 to 11 years; `alike` is the share of children whose molars all share
// one fate.
std::vector<Exposure> drawChildren(base::Random& random, std::size_t count, double annual,
                                   double alike) {
  std::vector<Exposure> rows;
  for (std::size_t child = 0; child < count; ++child) {
    const double years = 6.5 + 4.5 * random.uniform() - defaultEruptionAge;
    const double risk = 1 - std::pow(1 - annual, years);
    const double shared = random.uniform() < risk ? 1 : 0;
    const bool oneFate = random.uniform() < alike;
    Exposure row{years, 4, 0, child};
    for (int molar = 0; molar < 4; ++molar)
      row.affected += oneFate ? shared : (random.uniform() < risk ? 1 : 0);
    rows.push_back(row);
  }
  return rows;
}

} // namespace

TEST_CASE("Expected counts at one age give back the attack rate") {
  // 1000 (1 - .93^3) = 195.643
  const auto found = attackRate(std::vector<Exposure>{{3, 1000, 195.643, 1}}).value();
  CHECK(found.annual == Approx(.0700).margin(5e-8));
}

TEST_CASE("Two ages share one attack rate by maximum likelihood") {
  // derived: (2 y, 54 of 400) with (3 y, 60 of 320)
  const auto found = attackRate(std::vector<Exposure>{{2, 400, 54, 1}, {3, 320, 60, 2}}).value();
  CHECK(found.annual == Approx(.068295).margin(5e-7));
}

TEST_CASE("One age has its closed form") {
  for (const double years : {0.25, 1.0, 2.5, 7.0})
    for (const double affected : {1.0, 20.0, 99.0}) {
      const auto found = attackRate(std::vector<Exposure>{{years, 100, affected, 1}}).value();
      CHECK(found.annual == Approx(1 - std::pow(1 - affected / 100, 1 / years)).epsilon(1e-10));
    }
}

TEST_CASE("The clustered variance agrees with a sandwich worked from numeric slopes") {
  // reference: an independent script with numeric derivatives, the definition that R's
  // sandwich::vcovCL documents (CR0 times m/(m-1)); child 2 has two rows
  const std::vector<Exposure> rows{{1.5, 4, 0, 1}, {2.0, 2, 1, 2}, {2.2, 2, 2, 2}, {0.8, 4, 1, 3},
                                   {3.1, 4, 0, 4}, {2.7, 3, 3, 5}, {1.1, 4, 0, 6}};
  const auto found = attackRate(rows).value();
  CHECK(found.children == 6);
  CHECK(found.annual == Approx(.18491521).epsilon(1e-6));
  CHECK(found.cloglog.value() == Approx(-1.5873676).epsilon(1e-6));
  CHECK(found.modelVariance.value() == Approx(.14526045).epsilon(1e-6));
  CHECK(found.robustVariance.value() == Approx(.45366360).epsilon(1e-5));
  CHECK(found.standardError.value() == Approx(std::sqrt(.45366360)).epsilon(1e-5));
  CHECK(found.low == Approx(.05314801).epsilon(1e-5));
  CHECK(found.high == Approx(.53489281).epsilon(1e-5));
}

TEST_CASE("Rows of one child are joined whatever their order") {
  const std::vector<Exposure> apart{{2, 2, 1, 7}, {2, 4, 0, 8}, {2, 2, 1, 7}, {2, 4, 1, 9}};
  const std::vector<Exposure> together{{2, 4, 2, 1}, {2, 4, 0, 2}, {2, 4, 1, 3}};
  CHECK(attackRate(apart)->annual == Approx(attackRate(together)->annual));
  CHECK(attackRate(apart)->robustVariance.value() ==
        Approx(attackRate(together)->robustVariance.value()));
  CHECK(attackRate(apart)->children == 3);
}

TEST_CASE("Short and negative exposures are left out and counted") {
  const std::vector<Exposure> rows{
      {-0.3, 2, 0, 1}, {0.2499, 4, 1, 2}, {0.25, 4, 1, 3}, {2, 4, 0, 4}, {3, 0, 0, 5}};
  const auto found = attackRate(rows).value();
  CHECK(found.rowsLeftOut == 2);
  CHECK(found.molarsLeftOut == 6);
  CHECK(found.molars == 8);
  CHECK(found.children == 2);
  CHECK(found.has(AttackRateNote::shortExposures));
}

TEST_CASE("No affected molar gives rate zero with an upper limit") {
  std::vector<Exposure> rows;
  for (std::size_t child = 0; child < 10; ++child)
    rows.push_back({2, 4, 0, child});
  const auto found = attackRate(rows).value();
  CHECK(found.annual == 0);
  CHECK(found.low == 0);
  // (1 - a)^80 = .025
  CHECK(found.high == Approx(1 - std::pow(.025, 1 / 80.0)).epsilon(1e-12));
  CHECK(found.conservative->high == Approx(1 - std::pow(.025, 1 / 20.0)).epsilon(1e-12));
  CHECK(!found.standardError);
  CHECK(found.has(AttackRateNote::noneAffected));
}

TEST_CASE("Every molar affected gives rate one with a lower limit") {
  std::vector<Exposure> rows;
  for (std::size_t child = 0; child < 10; ++child)
    rows.push_back({2, 4, 4, child});
  const auto found = attackRate(rows).value();
  CHECK(found.annual == 1);
  CHECK(found.high == 1);
  // (1 - (1 - a)^2)^40 = .025
  const double low = 1 - std::sqrt(1 - std::pow(.025, 1 / 40.0));
  CHECK(found.low == Approx(low).epsilon(1e-10));
  CHECK(found.conservative->low < found.low);
  CHECK(found.has(AttackRateNote::allAffected));
}

TEST_CASE("One child counts as one molar and says so") {
  const auto found = attackRate(std::vector<Exposure>{{3, 4, 1, 5}}).value();
  CHECK(found.has(AttackRateNote::oneChild));
  CHECK(!found.robustVariance);
  CHECK(found.standardError.value() == Approx(2 * std::sqrt(found.modelVariance.value())));
}

TEST_CASE("Children who chance to agree do not make a certain rate") {
  const auto found = attackRate(std::vector<Exposure>{{2, 4, 1, 1}, {2, 4, 1, 2}}).value();
  CHECK(found.robustVariance.value() == Approx(0).margin(1e-20));
  CHECK(found.standardError.value() == Approx(std::sqrt(found.modelVariance.value())));
  CHECK(found.has(AttackRateNote::varianceRaised));
}

TEST_CASE("Bad exposures are refused and the row is named") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const Exposure bad : {Exposure{nan, 4, 0, 2}, Exposure{1e9, 4, 0, 2}, Exposure{2, nan, 0, 2},
                             Exposure{2, -4, 0, 2}, Exposure{2, 4, -1, 2}, Exposure{2, 4, 5, 2},
                             Exposure{2, 4, nan, 2}}) {
    const auto result = attackRate(std::vector<Exposure>{{2, 4, 1, 1}, bad});
    REQUIRE(!result);
    CHECK(result.error().code == base::ErrorCode::estimateInput);
    CHECK_THAT(result.error().detail, Catch::StartsWith("Row 2: "));
  }
  CHECK(!attackRate(std::vector<Exposure>{}));
  CHECK(!attackRate(std::vector<Exposure>{{0.1, 4, 1, 1}}));
  CHECK(!attackRate(std::vector<Exposure>{{2, 4, 1, 1}}, 0));
}

TEST_CASE("The attack rate solves its score equation on random programs") {
  base::SeededRandom random(31);
  for (int round = 0; round < 300; ++round) {
    const double annual = std::exp(-5 * random.uniform());
    const auto children = 1 + random.below(60);
    auto rows = drawChildren(random, children, annual, random.uniform());
    const auto found = attackRate(rows).value();
    CHECK(std::isfinite(found.annual + found.low + found.high));
    CHECK(found.low <= found.annual);
    CHECK(found.high >= found.annual);
    CHECK(found.has(AttackRateNote::noneAffected) + found.has(AttackRateNote::allAffected) +
              (found.standardError ? 1 : 0) ==
          1);
    if (!found.standardError) continue;
    double score = 0;
    for (const auto& row : rows) {
      if (row.years < shortestExposure) continue;
      const double sound = std::pow(1 - found.annual, row.years);
      score += row.years * (row.affected * sound / (1 - sound) - (row.examined - row.affected));
    }
    CHECK(score == Approx(0).margin(1e-6 * found.molarYears));
    std::reverse(rows.begin(), rows.end());
    CHECK(attackRate(rows)->annual == Approx(found.annual).epsilon(1e-10));
  }
}

TEST_CASE("The clustered limits of the attack rate cover the truth") {
  base::SeededRandom random(32);
  constexpr int rounds = 600;
  int covered = 0;
  for (int round = 0; round < rounds; ++round) {
    const auto found = attackRate(drawChildren(random, 150, .07, .6)).value();
    covered += found.low <= .07 && .07 <= found.high ? 1 : 0;
  }
  CHECK(covered > .92 * rounds);
  CHECK(covered < .98 * rounds);
}
