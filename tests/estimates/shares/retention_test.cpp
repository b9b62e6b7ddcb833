#include "estimates/shares/retention.h"

#include "base/random.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

// Weil 1970, Food Cosmet Toxicol 8:177-82, control litters: pups in the litter, pups alive.
const std::vector<Cluster> weilControls{{13, 13}, {12, 12}, {9, 9},  {9, 9},  {8, 8}, {8, 8},
                                        {13, 12}, {12, 11}, {10, 9}, {10, 9}, {9, 8}, {13, 11},
                                        {5, 4},   {7, 5},   {10, 7}, {10, 7}};

// Children with four sealed molars each; a child's own chance is drawn so that teeth are alike.
std::vector<Cluster> drawClusters(base::Random& random, std::size_t count, double p, double alike) {
  std::vector<Cluster> children;
  for (std::size_t i = 0; i < count; ++i) {
    const double first = random.uniform() < p ? 1 : 0;
    Cluster child{4, 0};
    for (int tooth = 0; tooth < 4; ++tooth)
      child.retained += random.uniform() < alike ? first : (random.uniform() < p ? 1 : 0);
    children.push_back(child);
  }
  return children;
}

} // namespace

TEST_CASE("Clustered retention reproduces the litters of Weil 1970") {
  // Data published; results derived from the formulas and once more by an independent script.
  const auto found = retention(weilControls).value();
  CHECK(found.teeth == 158);
  CHECK(found.retained == 142);
  CHECK(found.clusters == 16);
  CHECK(found.estimate == Approx(.898734).margin(5e-7));
  CHECK(found.variance.value() == Approx(7.09941e-4).margin(5e-10));
  CHECK(found.designEffect == Approx(1.232495).margin(5e-7));
  CHECK(found.effectiveN == Approx(128.195).margin(5e-4));
  CHECK(found.low == Approx(.834385).margin(1e-6));
  CHECK(found.high == Approx(.939882).margin(1e-6));
  // n cut by (t(157) / t(15))^2 to 110.088
  CHECK(found.publication.low == Approx(.826622).margin(1e-5));
  CHECK(found.publication.high == Approx(.948077).margin(1e-5));
  CHECK(found.notes.empty());
  CHECK(!found.conservative);
}

TEST_CASE("Equal clusters have the design effect 1 plus m less 1 times rho") {
  // 20 children of 4 teeth whose teeth correlate at exactly .3: 1 + 3 x .3 = 1.90, and the
  // estimator's m/(m-1) makes 1.90 x 20/19 of it.
  std::vector<Cluster> children;
  const std::vector<std::pair<double, int>> made{{0, 4}, {1, 3}, {2, 6}, {3, 3}, {4, 4}};
  for (const auto& [retained, times] : made)
    for (int i = 0; i < times; ++i)
      children.push_back({4, retained});
  const auto found = retention(children).value();
  CHECK(found.estimate == Approx(.5));
  CHECK(found.designEffect * 19 / 20 == Approx(1.90).epsilon(1e-12));
}

TEST_CASE("Retention of Culler and Henshaw 2004 is three quarters") {
  // 75 % of 575 teeth intact in 174 children; the children's own counts are not published, so 431
  // teeth are laid out as 53 children with 4 and 121 with 3, of which the first are whole.
  std::vector<Cluster> children;
  double left = 431;
  for (int child = 0; child < 174; ++child) {
    const double teeth = child < 53 ? 4 : 3;
    const double kept = std::min(left, teeth);
    children.push_back({teeth, kept});
    left -= kept;
  }
  const auto found = retention(children).value();
  CHECK(found.teeth == 575);
  CHECK(found.clusters == 174);
  CHECK(found.estimate == Approx(.75).margin(.005));
  CHECK(found.designEffect > 3); // whole children kept or lost: nearly one observation a child
}

TEST_CASE("Teeth that are alike within a child widen the interval") {
  const auto alike = retention(std::vector<Cluster>(20, {4, 4})).value();
  CHECK(alike.estimate == 1);
  std::vector<Cluster> split(30, {4, 4});
  for (std::size_t i = 0; i < 10; ++i)
    split[i].retained = 0;
  const auto found = retention(split).value();
  CHECK(found.designEffect == Approx(4 * 30.0 / 29));
  const auto naive = wilson(found.retained, found.teeth).value();
  CHECK(found.high - found.low > 1.8 * (naive.high - naive.low));
}

TEST_CASE("All retained keeps independent teeth and shows the conservative reading") {
  const auto found = retention(std::vector<Cluster>(20, {3, 3})).value();
  CHECK(found.estimate == 1);
  CHECK(found.variance == 0.0);
  CHECK(found.designEffect == 1);
  CHECK(found.low == Approx(wilson(60, 60)->low));
  CHECK(found.high == 1);
  CHECK(found.conservative->low == Approx(1 - .1611).margin(5.1e-5)); // Newcombe's 0/20 mirrored
  CHECK(found.conservative->high == 1);
  CHECK(found.has(RetentionNote::allOrNone));
}

TEST_CASE("None retained mirrors all retained") {
  const auto none = retention(std::vector<Cluster>(12, {2, 0})).value();
  const auto all = retention(std::vector<Cluster>(12, {2, 2})).value();
  CHECK(none.estimate == 0);
  CHECK(none.low == 0);
  CHECK(none.high == Approx(1 - all.low));
  CHECK(none.conservative->high == Approx(1 - all.conservative->low));
  CHECK(none.publication.high == Approx(1 - all.publication.low));
}

TEST_CASE("A design effect below one is raised to one and said") {
  const auto found = retention(std::vector<Cluster>(10, {4, 3})).value();
  CHECK(found.variance.value() == Approx(0).margin(1e-18));
  CHECK(found.designEffect == 1);
  CHECK(found.effectiveN == 40);
  CHECK(found.has(RetentionNote::designEffectRaised));
}

TEST_CASE("One cluster counts as one observation and says so") {
  const auto found = retention(std::vector<Cluster>{{4, 3}}).value();
  CHECK(found.estimate == .75);
  CHECK(!found.variance);
  CHECK(found.effectiveN == 1);
  CHECK(found.low < .2);
  CHECK(found.high > .95);
  CHECK(found.has(RetentionNote::oneCluster));
  const auto whole = retention(std::vector<Cluster>{{4, 4}}).value();
  CHECK(whole.high == 1);
  CHECK(whole.low == Approx(wilson(1, 1)->low));
}

TEST_CASE("Children without an examined tooth are passed over and noted") {
  auto padded = weilControls;
  padded.insert(padded.begin() + 3, {0, 0});
  const auto found = retention(padded).value();
  CHECK(found.clusters == 16);
  CHECK(found.effectiveN == Approx(retention(weilControls)->effectiveN));
  CHECK(found.has(RetentionNote::emptyClusters));
}

TEST_CASE("Fewer than eight clusters are noted as few") {
  CHECK(retention(std::vector<Cluster>{{40, 30}, {30, 28}, {20, 20}})
            ->has(RetentionNote::fewClusters));
  CHECK(!retention(weilControls)->has(RetentionNote::fewClusters));
}

TEST_CASE("Bad retention counts are refused and the cluster is named") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinite = std::numeric_limits<double>::infinity();
  for (const Cluster bad : {Cluster{4, 5}, Cluster{-1, 0}, Cluster{4, -1}, Cluster{nan, 0},
                            Cluster{4, nan}, Cluster{infinite, 1}, Cluster{4, 2.5}}) {
    const auto result = retention(std::vector<Cluster>{{4, 4}, {3, 2}, bad});
    REQUIRE(!result);
    CHECK(result.error().code == base::ErrorCode::estimateInput);
    CHECK_THAT(result.error().detail, Catch::StartsWith("Cluster 3: "));
  }
  CHECK(retention(std::vector<Cluster>{{4, 5}}).error().detail ==
        "Cluster 1: 5 retained of 4 examined; only an examined tooth can count as retained, so "
        "correct one of the two.");
}

TEST_CASE("Retention without an examined tooth is refused") {
  for (const auto& nothing : {std::vector<Cluster>{}, std::vector<Cluster>{{0, 0}, {0, 0}}}) {
    const auto result = retention(nothing);
    REQUIRE(!result);
    CHECK(result.error().code == base::ErrorCode::estimateInput);
  }
  CHECK(!retention(weilControls, 1.0));
}

TEST_CASE("Retention keeps its invariants on random programs") {
  base::SeededRandom random(21);
  for (int round = 0; round < 300; ++round) {
    const auto count = 1 + random.below(60);
    const double p = random.uniform();
    auto children = drawClusters(random, count, p, random.uniform());
    const auto found = retention(children).value();
    CHECK(found.low <= found.estimate);
    CHECK(found.high >= found.estimate);
    CHECK(found.low >= 0);
    CHECK(found.high <= 1);
    CHECK(found.designEffect >= 1);
    CHECK(found.effectiveN <= found.teeth);
    CHECK(found.effectiveN >= 1 - 1e-9);
    CHECK(std::isfinite(found.publication.low + found.publication.high));
    CHECK(found.has(RetentionNote::allOrNone) == found.conservative.has_value());

    std::reverse(children.begin(), children.end());
    CHECK(retention(children)->low == Approx(found.low).margin(1e-12));
    for (auto& child : children)
      child.retained = child.examined - child.retained;
    const auto lost = retention(children).value();
    CHECK(lost.estimate == Approx(1 - found.estimate).margin(1e-12));
    CHECK(lost.low == Approx(1 - found.high).margin(1e-9));
    CHECK(lost.publication.low == Approx(1 - found.publication.high).margin(1e-9));
  }
}

TEST_CASE("The clustered interval covers the truth where the naive one fails") {
  base::SeededRandom random(22);
  constexpr int rounds = 1000;
  int covered = 0;
  int naivelyCovered = 0;
  for (int round = 0; round < rounds; ++round) {
    const auto found = retention(drawClusters(random, 80, .85, .8)).value();
    const auto naive = wilson(found.retained, found.teeth).value();
    covered += found.low <= .85 && .85 <= found.high ? 1 : 0;
    naivelyCovered += naive.low <= .85 && .85 <= naive.high ? 1 : 0;
  }
  CHECK(covered > 0.92 * rounds);
  CHECK(covered < 0.98 * rounds);
  CHECK(naivelyCovered < 0.85 * rounds);
}
