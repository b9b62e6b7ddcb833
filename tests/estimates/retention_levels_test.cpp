#include "estimates/retention_levels.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

/// Schools of six children with three teeth each; in every other school a third is lost.
std::vector<ChildTeeth> program(std::size_t schools) {
  std::vector<ChildTeeth> rows;
  for (std::size_t school = 0; school < schools; ++school)
    for (std::size_t child = 0; child < 6; ++child)
      rows.push_back({school, school * 100 + child, 3, school % 2 == 0 ? 3.0 : 2.0});
  return rows;
}

} // namespace

TEST_CASE("Eight checked schools become the clusters and seven do not") {
  const auto seven = retentionByLevel(program(7)).value();
  CHECK(seven.level == ClusterLevel::child);
  CHECK(seven.used.clusters == 42);
  CHECK(seven.has(LevelNote::schoolLikenessMissed));
  const auto eight = retentionByLevel(program(8)).value();
  CHECK(eight.level == ClusterLevel::school);
  CHECK(eight.used.clusters == 8);
  CHECK(!eight.has(LevelNote::schoolLikenessMissed));
}

TEST_CASE("A school without an examined tooth does not count toward the eight") {
  auto rows = program(7);
  rows.push_back({99, 9900, 0, 0});
  CHECK(retentionByLevel(rows)->level == ClusterLevel::child);
}

TEST_CASE("The cluster level can be chosen and both levels agree on the share") {
  const auto rows = program(8);
  const auto child = retentionByLevel(rows, LevelChoice::child).value();
  const auto school = retentionByLevel(rows, LevelChoice::school).value();
  CHECK(child.level == ClusterLevel::child);
  CHECK(school.level == ClusterLevel::school);
  CHECK(child.used.estimate == Approx(school.used.estimate));
  // Whole schools differ, so the schools' interval is the wider one.
  CHECK(school.used.effectiveN < child.used.effectiveN);
  CHECK(child.byChild.effectiveN == child.used.effectiveN);
  CHECK(child.bySchool.effectiveN == school.used.effectiveN);
}

TEST_CASE("Schools more alike than chance are said") {
  std::vector<ChildTeeth> rows; // each school keeps exactly half, by whole children
  for (std::size_t school = 0; school < 8; ++school)
    for (std::size_t child = 0; child < 4; ++child)
      rows.push_back({school, school * 10 + child, 4, child % 2 == 0 ? 4.0 : 0.0});
  const auto found = retentionByLevel(rows).value();
  CHECK(found.has(LevelNote::schoolsMoreEven));
  CHECK(found.bySchool.has(RetentionNote::designEffectRaised));
}

TEST_CASE("Rows of one child are added up and a single school still has its children") {
  const std::vector<ChildTeeth> split{{1, 1, 2, 2}, {1, 1, 2, 1}, {1, 2, 3, 3}};
  const std::vector<ChildTeeth> whole{{1, 1, 4, 3}, {1, 2, 3, 3}};
  const auto a = retentionByLevel(split).value();
  const auto b = retentionByLevel(whole).value();
  CHECK(a.used.low == b.used.low);
  CHECK(a.used.clusters == 2);
  CHECK(a.notes.empty()); // one school: nothing between schools to miss
  CHECK(a.bySchool.has(RetentionNote::oneCluster));
}

TEST_CASE("All and none retained have the exact limits on children beside them") {
  const std::vector<Cluster> all(20, {3, 3});
  const std::vector<Cluster> none(20, {3, 0});
  const auto kept = retention(all).value();
  const auto lost = retention(none).value();
  // Newcombe 1998, Table I: 0 of 20, Clopper-Pearson 0 to .1684.
  CHECK(lost.conservativeExact->low == 0);
  CHECK(lost.conservativeExact->high == Approx(.1684).margin(5e-5));
  CHECK(kept.conservativeExact->low == Approx(1 - .1684).margin(5e-5));
  CHECK(kept.conservativeExact->high == 1);
  CHECK(!kept.logit);
  CHECK(!lost.logit);
}

TEST_CASE("The logit interval mirrors and stays inside 0 and 1") {
  const std::vector<Cluster> some{{4, 4}, {4, 3}, {3, 3}, {4, 4}, {2, 2}};
  std::vector<Cluster> mirrored;
  for (const auto& cluster : some)
    mirrored.push_back({cluster.examined, cluster.examined - cluster.retained});
  const auto found = retention(some)->logit.value();
  const auto other = retention(mirrored)->logit.value();
  CHECK(found.low > 0);
  CHECK(found.high < 1);
  CHECK(found.low == Approx(1 - other.high));
  CHECK(found.high == Approx(1 - other.low));
}

TEST_CASE("Impossible teeth of a child are refused by row") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::vector<ChildTeeth> bad[]{{{1, 1, 2, 1}, {1, 2, 2, 3}},
                                      {{1, 1, 2, 1}, {1, 2, -1, 0}},
                                      {{1, 1, 2, 1}, {1, 2, nan, 0}},
                                      {{1, 1, 2, 1}, {1, 2, 2, 0.5}}};
  for (const auto& rows : bad) {
    const auto found = retentionByLevel(rows);
    REQUIRE(!found);
    CHECK(found.error().code == base::ErrorCode::estimateInput);
    CHECK(found.error().detail.find("Row 2") == 0);
  }
  CHECK(!retentionByLevel({}));
  CHECK(!retentionByLevel(program(2), LevelChoice::automatic, 1));
}
