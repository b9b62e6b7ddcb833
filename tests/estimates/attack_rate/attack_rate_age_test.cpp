#include "base/random.h"
#include "estimates/attack_rate/attack_rate_age.h"
#include "estimates/numbers/chi_squared.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

// `alike`: the share of children whose four molars have one fate.
std::vector<Exposure> drawProgram(base::Random& random, std::size_t children, double early,
                                  double late, double alike) {
  std::vector<Exposure> out;
  for (std::size_t child = 0; child < children; ++child) {
    const double years = .3 + 3.7 * random.uniform();
    const double hazard = early * std::min(years, 1.5) + late * std::max(0.0, years - 1.5);
    const double chance = 1 - std::exp(-hazard);
    const bool isAlike = random.uniform() < alike;
    const bool first = random.uniform() < chance;
    double affected = 0;
    for (int tooth = 0; tooth < 4; ++tooth)
      affected += (isAlike ? first : random.uniform() < chance) ? 1 : 0;
    out.push_back({years, 4, affected, child});
  }
  return out;
}

} // namespace

TEST_CASE("Chi-squared tails agree with the tables") {
  // 5 % points: 1 degree 3.841459, 2 5.991465, 3 7.814728, 10 18.307038
  for (const auto& [x, degrees] :
       {std::pair{3.841459, 1.0}, {5.991465, 2.0}, {7.814728, 3.0}, {18.307038, 10.0}})
    CHECK(chiSquaredTail(x, degrees) == Approx(.05).epsilon(1e-5));
  for (const double x : {.01, 1.0, 5.0, 80.0}) {
    CHECK(chiSquaredTail(x, 2) == Approx(std::exp(-x / 2)).epsilon(1e-12));
    CHECK(chiSquaredTail(x, 1) == Approx(std::erfc(std::sqrt(x / 2))).epsilon(1e-11));
  }
  CHECK(chiSquaredTail(0, 3) == 1);
  CHECK(chiSquaredTail(std::numeric_limits<double>::infinity(), 3) == 0);
}

TEST_CASE("Two bands test as two rates against one") {
  // Each band has its closed form: 1 - (1 - 54/400)^(1/2) and 1 - (1 - 60/320)^(1/3); one rate
  // .068295 (docs/methods.md). Derived: 2 (log L apart - log L together).
  const std::vector<Exposure> rows{{1.5, 400, 54, 1}, {2.5, 320, 60, 2}};
  const auto found = riskByAge(rows, std::vector<double>{2}).value();
  REQUIRE(found.bands.size() == 2);
  CHECK(found.bands[0].from == .25);
  CHECK(found.bands[0].until == 2);
  CHECK(!found.bands[1].until);
  CHECK(found.bands[0].rate.annual == Approx(1 - std::pow(.865, 1 / 1.5)));
  const double together = attackRate(rows)->annual;
  const auto term = [](double n, double y, double years, double annual) {
    const double sound = std::pow(1 - annual, years);
    return y * std::log(1 - sound) + (n - y) * std::log(sound);
  };
  const double apart = term(400, 54, 1.5, found.bands[0].rate.annual) +
                       term(320, 60, 2.5, found.bands[1].rate.annual);
  const double joint = term(400, 54, 1.5, together) + term(320, 60, 2.5, together);
  CHECK(found.likelihoodRatio.value() == Approx(2 * (apart - joint)).epsilon(1e-6));
  CHECK(found.degrees == 1);
  CHECK(found.verdict == RiskWithAge::cannotTell); // two children
}

TEST_CASE("Without likeness in a child the two tests agree") {
  base::SeededRandom random(81);
  const auto found = riskByAge(drawProgram(random, 4000, .1, .05, 0)).value();
  CHECK(found.robustScore.value() == Approx(found.likelihoodRatio.value()).epsilon(.15));
  CHECK(found.clusteredRatio.value() == Approx(found.likelihoodRatio.value()).epsilon(.15));
}

TEST_CASE("Risk that falls with time in the mouth is seen to fall") {
  base::SeededRandom random(82);
  const auto found = riskByAge(drawProgram(random, 3000, .25, .02, .3)).value();
  CHECK(found.clusteredRatioP.value() < .001);
  CHECK(found.robustScoreP.value() < .001);
  CHECK((found.verdict == RiskWithAge::falls || found.verdict == RiskWithAge::differs));
}

TEST_CASE("Risk that rises with time in the mouth is seen to rise") {
  base::SeededRandom random(83);
  const auto found =
      riskByAge(drawProgram(random, 3000, .01, .25, .3), std::vector<double>{1.5, 3}).value();
  CHECK(found.verdict == RiskWithAge::rises);
}

TEST_CASE("Constant risk is called changing about once in twenty even when teeth are alike") {
  base::SeededRandom random(84);
  constexpr int rounds = 300;
  int clustered = 0;
  int naive = 0;
  for (int round = 0; round < rounds; ++round) {
    const auto found = riskByAge(drawProgram(random, 300, .12, .12, .6)).value();
    clustered += found.clusteredRatioP.value() < .05 ? 1 : 0;
    naive += found.likelihoodRatioP.value() < .05 ? 1 : 0;
  }
  CHECK(clustered < .09 * rounds);
  CHECK(naive > .2 * rounds); // why the clustered test gives the verdict
}

TEST_CASE("One band or one fate cannot tell") {
  const auto one = riskByAge(std::vector<Exposure>{{1.2, 4, 1, 1}, {1.4, 4, 0, 2}}).value();
  CHECK(one.verdict == RiskWithAge::cannotTell);
  CHECK(!one.likelihoodRatio);
  CHECK(one.degrees == 0);
  for (const double affected : {0.0, 4.0}) {
    const auto fate =
        riskByAge(std::vector<Exposure>{{.5, 4, affected, 1}, {2.4, 4, affected, 2}}).value();
    CHECK(fate.verdict == RiskWithAge::cannotTell);
    CHECK(!fate.robustScore);
    CHECK(fate.bands.size() == 2);
  }
}

TEST_CASE("A band without an affected molar is still tested") {
  std::vector<Exposure> rows;
  for (std::size_t child = 0; child < 40; ++child)
    rows.push_back({child < 20 ? .5 : 3.5, 4, child < 20 ? 0.0 : double(child % 3), child});
  const auto found = riskByAge(rows).value();
  CHECK(found.bands[0].rate.annual == 0);
  CHECK(std::isfinite(found.likelihoodRatio.value()));
  CHECK(std::isfinite(found.robustScore.value()));
  CHECK(found.clusteredRatioP.value() < .05);
}

TEST_CASE("A child in two bands is one child") {
  const std::vector<Exposure> rows{{.9, 2, 1, 1}, {1.1, 2, 1, 1}};
  const auto found = riskByAge(rows, std::vector<double>{1}).value();
  CHECK(!found.robustScore);
  CHECK(!found.clusteredRatio);
  CHECK(found.likelihoodRatio);
}

TEST_CASE("Band edges that do not rise are refused") {
  const std::vector<Exposure> rows{{2, 4, 1, 1}};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(!riskByAge(rows, std::vector<double>{2, 2}));
  CHECK(!riskByAge(rows, std::vector<double>{.25}));
  CHECK(!riskByAge(rows, std::vector<double>{nan}));
  CHECK(!riskByAge({}));
  CHECK(!riskByAge(rows, usualBandEdges, 0));
}
