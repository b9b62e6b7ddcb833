#include "estimates/shares/screening_measures.h"

#include "base/random.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace gk;
using namespace gk::estimates;

namespace {

std::vector<ScreenedChild> county(std::uint64_t seed) {
  base::SeededRandom random(seed);
  std::vector<ScreenedChild> children;
  for (std::size_t school = 0; school < 10; ++school) {
    const double risk = .1 + .4 * random.uniform();
    for (int i = 0; i < 25; ++i) {
      const bool untreated = random.uniform() < risk;
      children.push_back({school, untreated, random.uniform() < risk, random.uniform() < .4,
                          !untreated              ? CareNeed::none
                          : random.uniform() < .2 ? CareNeed::urgent
                                                  : CareNeed::early});
    }
  }
  return children;
}

} // namespace

TEST_CASE("Screening shares are the same by either design and wider by school") {
  const auto children = county(3);
  const auto schools = screeningMeasures(children, ScreeningDesign::schools).value();
  const auto alone = screeningMeasures(children, ScreeningDesign::simpleRandom).value();
  CHECK(schools.untreatedDecay->estimate == Approx(alone.untreatedDecay->estimate));
  CHECK(schools.untreatedDecay->clusters == 10);
  CHECK(alone.untreatedDecay->clusters == 250);
  CHECK(schools.untreatedDecay->effectiveN < alone.untreatedDecay->effectiveN);
  // A simple random sample has the design effect n / (n - 1) of an unbiased variance.
  CHECK(alone.sealants->designEffect == Approx(250.0 / 249));
  CHECK(schools.anyNeed->estimate >= schools.urgentNeed->estimate);
}

TEST_CASE("Caries experience lies within its bounds whatever the children") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const auto found = screeningMeasures(county(seed), ScreeningDesign::schools).value();
    const auto bounds =
        experienceBounds(found.untreatedDecay->estimate, found.treatedDecay->estimate).value();
    CHECK(found.cariesExperience->estimate >= bounds.low - 1e-12);
    CHECK(found.cariesExperience->estimate <= bounds.high + 1e-12);
  }
}

TEST_CASE("Bounds of caries experience are the larger share and the sum up to one") {
  CHECK(experienceBounds(.2, .3).value() == Interval{.3, .5});
  CHECK(experienceBounds(.7, .6).value() == Interval{.7, 1});
  CHECK(experienceBounds(0, 0).value() == Interval{0, 0});
  CHECK(!experienceBounds(-.1, .3));
  CHECK(!experienceBounds(.1, std::nan("")));
}

TEST_CASE("No child with decay keeps its upper limit and one school is said") {
  std::vector<ScreenedChild> children(30, {1, false, false, true, CareNeed::none});
  const auto found = screeningMeasures(children, ScreeningDesign::simpleRandom).value();
  CHECK(found.untreatedDecay->estimate == 0);
  CHECK(found.untreatedDecay->high > 0);
  CHECK(found.untreatedDecay->has(RetentionNote::allOrNone));
  CHECK(found.sealants->estimate == 1);
  const auto one = screeningMeasures(children, ScreeningDesign::schools).value();
  CHECK(one.untreatedDecay->has(RetentionNote::oneCluster));
  CHECK(one.untreatedDecay->high > found.untreatedDecay->high);
}

TEST_CASE("Screening measures refuse no children and an odd level") {
  CHECK(!screeningMeasures({}, ScreeningDesign::schools));
  CHECK(!screeningMeasures(county(1), ScreeningDesign::schools, 2));
}
