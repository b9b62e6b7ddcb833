#include "estimates/attack_rate/attack_rate_profile.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace gk;
using namespace gk::estimates;

namespace {

const std::vector<Exposure> sevenRows{{1.5, 4, 0, 1}, {2.0, 2, 1, 2}, {2.2, 2, 2, 2},
                                      {0.8, 4, 1, 3}, {3.1, 4, 0, 4}, {2.7, 3, 3, 5},
                                      {1.1, 4, 0, 6}};

std::vector<Exposure> tenChildren(double affected) {
  std::vector<Exposure> rows;
  for (std::size_t child = 0; child < 10; ++child)
    rows.push_back({2, 4, affected, child});
  return rows;
}

} // namespace

TEST_CASE("At a likelihood limit twice the fall is the chi-squared point") {
  const auto found = attackRateProfile(sevenRows).value();
  const auto logLikelihood = [](double annual) {
    double sum = 0;
    for (const auto& row : sevenRows) {
      const double sound = std::pow(1 - annual, row.years);
      sum += row.affected * std::log(1 - sound) + (row.examined - row.affected) * std::log(sound);
    }
    return sum;
  };
  CHECK(found.annual == Approx(attackRate(sevenRows)->annual));
  CHECK(found.logLikelihood == Approx(logLikelihood(found.annual)));
  // chi-squared, one degree, .95: 3.841459
  for (const double limit : {found.independent.low, found.independent.high})
    CHECK(2 * (found.logLikelihood - logLikelihood(limit)) == Approx(3.841459).epsilon(1e-6));
  for (const double limit : {found.clustered.low, found.clustered.high})
    CHECK(2 * (found.logLikelihood - logLikelihood(limit)) ==
          Approx(3.841459 * found.designEffect).epsilon(1e-6));
  CHECK(found.designEffect == Approx(.45366360 / .14526045).epsilon(1e-5));
}

TEST_CASE("No affected molar gives a likelihood limit in closed form") {
  // (1 - a)^80 = exp(-3.841459 / 2)
  const auto found = attackRateProfile(tenChildren(0)).value();
  CHECK(found.annual == 0);
  CHECK(found.independent.low == 0);
  CHECK(found.independent.high == Approx(1 - std::exp(-3.841459 / 160)).epsilon(1e-6));
  CHECK(found.designEffect == 4);
  CHECK(found.clustered.high == Approx(1 - std::exp(-3.841459 / 40)).epsilon(1e-6));
}

TEST_CASE("Every molar affected gives a likelihood limit in closed form") {
  // (1 - (1 - a)^2)^40 = exp(-3.841459 / 2)
  const auto found = attackRateProfile(tenChildren(4)).value();
  CHECK(found.annual == 1);
  CHECK(found.independent.high == 1);
  const double low = 1 - std::sqrt(1 - std::exp(-3.841459 / 80));
  CHECK(found.independent.low == Approx(low).epsilon(1e-6));
  CHECK(found.clustered.low < found.independent.low);
}

TEST_CASE("One child counts as one molar in the likelihood limits") {
  const auto found = attackRateProfile(std::vector<Exposure>{{3, 4, 1, 5}}).value();
  CHECK(found.designEffect == 4);
  CHECK(found.clustered.low > 0);
  CHECK(found.clustered.high < 1);
}

TEST_CASE("Large programs have the same limits by likelihood and by sandwich") {
  std::vector<Exposure> rows;
  for (std::size_t child = 0; child < 20'000; ++child)
    rows.push_back({1 + static_cast<double>(child % 4), 2, child % 7 == 0 ? 1.0 : 0.0, child});
  const auto profile = attackRateProfile(rows).value();
  const auto wald = attackRate(rows).value();
  CHECK(profile.clustered.low == Approx(wald.low).epsilon(1e-3));
  CHECK(profile.clustered.high == Approx(wald.high).epsilon(1e-3));
}

TEST_CASE("A profile is refused as the rate is") {
  CHECK(!attackRateProfile({}));
  CHECK(!attackRateProfile(std::vector<Exposure>{{2, 4, 5, 1}}));
  CHECK(!attackRateProfile(std::vector<Exposure>{{.1, 4, 1, 1}}));
  CHECK(!attackRateProfile(sevenRows, 1));
}
