#include "estimates/compare/comparison_clusters.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace gk;
using namespace gk::estimates;

namespace {

/// Children with two teeth in each of two strata, all on one side; the teeth of a child share its
/// fate with probability `alike`.
std::vector<ComparedTooth> clinic(std::uint64_t seed, std::size_t children, double alike) {
  base::SeededRandom random(seed);
  std::vector<ComparedTooth> teeth;
  for (std::size_t child = 0; child < children; ++child) {
    const bool exposed = random.uniform() < .5;
    const double chance = exposed ? .85 : .7;
    const bool fate = random.uniform() < chance;
    for (std::size_t tooth = 0; tooth < 4; ++tooth) {
      const bool own = random.uniform() < chance;
      teeth.push_back({child, tooth / 2, exposed, random.uniform() < alike ? fate : own});
    }
  }
  return teeth;
}

ClusteredComparison compared(const std::vector<ComparedTooth>& teeth, std::uint64_t seed = 5) {
  base::SeededRandom random(seed);
  return compareClustered(teeth, random).value();
}

} // namespace

TEST_CASE("Teeth that share a child's fate widen the comparison") {
  const auto found = compared(clinic(11, 150, .7));
  CHECK(found.children == 150);
  CHECK(found.designEffect.value() > 1.8);
  CHECK(found.interval->low < found.teeth.interval->low);
  CHECK(found.interval->high > found.teeth.interval->high);
  CHECK(found.p.value() > found.teeth.p.value());
  CHECK(found.notes.empty());
}

TEST_CASE("The bootstrap agrees with the linearised interval on many children") {
  const auto found = compared(clinic(12, 400, .5));
  REQUIRE(found.bootstrap);
  REQUIRE(found.bootstrap->high);
  const double width = std::log(found.interval->high / found.interval->low);
  CHECK(std::fabs(std::log(found.bootstrap->low / found.interval->low)) < .1 * width);
  CHECK(std::fabs(std::log(*found.bootstrap->high / found.interval->high)) < .1 * width);
  CHECK(found.bootstrap->replicates == usualReplicates);
  CHECK(found.bootstrap->withoutRatio == 0);
}

TEST_CASE("One tooth a child leaves nearly nothing of the design effect") {
  auto teeth = clinic(13, 600, 0);
  for (std::size_t i = 0; i < teeth.size(); ++i)
    teeth[i].child = i;
  const auto found = compared(teeth);
  CHECK(found.designEffect.value() == Approx(1).margin(.05));
}

TEST_CASE("The same seed gives the same bootstrap whatever the order of rows") {
  auto teeth = clinic(14, 60, .5);
  const auto first = compared(teeth, 9);
  std::reverse(teeth.begin(), teeth.end());
  const auto second = compared(teeth, 9);
  CHECK(first.bootstrap->low == second.bootstrap->low);
  CHECK(first.bootstrap->high == second.bootstrap->high);
  CHECK(compared(teeth, 10).bootstrap->low != first.bootstrap->low);
}

TEST_CASE("One child and few children are said") {
  const std::vector<ComparedTooth> one{
      {7, 1, true, true}, {7, 1, true, false}, {7, 1, false, true}, {7, 1, false, false}};
  const auto alone = compared(one);
  CHECK(alone.has(ClusteredNote::oneChild));
  CHECK(!alone.bootstrap);
  CHECK(!alone.interval);
  CHECK(alone.teeth.oddsRatio.value() == Approx(1));
  CHECK(compared(clinic(15, 25, .3)).has(ClusteredNote::fewChildren));
}

TEST_CASE("A comparison at its edge has no bootstrap") {
  std::vector<ComparedTooth> teeth;
  for (std::size_t child = 0; child < 40; ++child)
    teeth.push_back({child, 1, child % 2 == 0, child % 2 == 0 || child % 4 == 1});
  const auto unbounded = compared(teeth);
  CHECK(unbounded.teeth.has(ComparisonNote::oddsRatioUnbounded));
  CHECK(!unbounded.bootstrap);
  CHECK(!unbounded.interval);
  for (auto& tooth : teeth)
    tooth.kept = true;
  const auto nothing = compared(teeth);
  CHECK(nothing.teeth.has(ComparisonNote::nothingToCompare));
  CHECK(!nothing.bootstrap);
}

TEST_CASE("A bootstrap that is often unbounded leaves its upper limit open") {
  std::vector<ComparedTooth> teeth; // one lost tooth on the exposed side
  for (std::size_t child = 0; child < 40; ++child)
    teeth.push_back({child, 1, child % 2 == 0, child % 2 == 0 ? child != 0 : child % 4 == 1});
  const auto found = compared(teeth);
  REQUIRE(found.bootstrap);
  CHECK(!found.bootstrap->high);
  CHECK(found.bootstrap->low > 0);
}

TEST_CASE("A clustered comparison refuses what it cannot use") {
  base::SeededRandom random(1);
  const auto teeth = clinic(16, 20, .5);
  CHECK(!compareClustered({}, random));
  CHECK(!compareClustered(teeth, random, 99));
  CHECK(!compareClustered(teeth, random, 100'001));
  CHECK(!compareClustered(teeth, random, 100, 1.0));
}
