#include "estimates/shares/retention_levels.h"

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

TEST_CASE("From four checked schools on schools are the clusters, fewer have a planned likeness",
          "[case-414]") {
  // In each school a child that lost all; the limits are from the formulas alone, in R (the survey
  // package's are held against in tests/reference/scripts/few_schools.R).
  const auto unlike = [](std::size_t schools) {
    auto rows = program(schools);
    for (auto& row : rows)
      if (row.child % 100 == 0) row.retained = 0;
    return retentionByLevel(rows).value();
  };
  struct Expected {
    std::size_t schools;
    ClusterLevel level;
    double n;
    double low;
    double high;
  };
  for (const auto& [schools, level, n, low, high] :
       {Expected{2, ClusterLevel::child, 9.358295, .330392, .935525},
        Expected{3, ClusterLevel::child, 20.244679, .500846, .906874},
        Expected{4, ClusterLevel::school, 12.954403, .387191, .910582},
        Expected{6, ClusterLevel::school, 32.709591, .509363, .842717},
        Expected{7, ClusterLevel::school, 42.392050, .554991, .842274},
        Expected{8, ClusterLevel::school, 53.807714, .553889, .812714}}) {
    INFO(schools << " schools");
    const auto found = unlike(schools);
    CHECK(found.level == level);
    CHECK(found.notes.empty());
    REQUIRE(found.used.toRead);
    CHECK(found.used.toRead->n == Approx(n).margin(1e-6));
    CHECK(found.used.toRead->range.low == Approx(low).margin(1e-6));
    CHECK(found.used.toRead->range.high == Approx(high).margin(1e-6));
  }
  // The schools are seen to differ more than the planned 1 + (18 - 1) .05.
  CHECK(unlike(2).used.designEffect > 1.85);
  CHECK_FALSE(unlike(2).used.toRead->isPlanned);
}

TEST_CASE("Few schools that came out even are read with the likeness of their children",
          "[case-414]") {
  std::vector<ChildTeeth> rows; // each school keeps exactly half, by whole children
  for (std::size_t school = 0; school < 6; ++school)
    for (std::size_t child = 0; child < 4; ++child)
      rows.push_back({school, school * 10 + child, 4, child % 2 == 0 ? 4.0 : 0.0});
  const auto found = retentionByLevel(rows).value();
  CHECK(found.level == ClusterLevel::school);
  CHECK(found.used.designEffect == Approx(4.0 * 24 / 23)); // a child tells as much as one tooth
  CHECK_FALSE(found.used.toRead->isPlanned);
}

TEST_CASE("All kept at two schools is read with the likeness planned within schools",
          "[case-414]") {
  std::vector<ChildTeeth> rows;
  for (std::size_t school = 0; school < 2; ++school)
    for (std::size_t child = 0; child < 12; ++child)
      rows.push_back({school, school * 100 + child, 4, 4});
  const auto found = retentionByLevel(rows).value();
  CHECK(found.used.toRead->isPlanned);
  CHECK(found.used.toRead->designEffect == Approx(1 + 47 * .05));
}

TEST_CASE("A school without an examined tooth does not count toward the four") {
  auto rows = program(3);
  rows.push_back({99, 9900, 0, 0});
  CHECK(retentionByLevel(rows)->level == ClusterLevel::child);
}

TEST_CASE("The cluster level can be chosen and both levels agree on the share") {
  const auto rows = program(8);
  const auto child = retentionByLevel(rows, LevelChoice::child).value();
  const auto school = retentionByLevel(rows, LevelChoice::school).value();
  CHECK(child.level == ClusterLevel::child);
  CHECK(child.has(LevelNote::schoolLikenessMissed));
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
