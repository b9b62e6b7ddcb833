#include "kit/light.h"

#include "base/random.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::kit;

namespace {

Light light(int baseline, int makersLeast = 0) {
  return {.tag = "L-1",
          .makersLeast = {makersLeast},
          .baseline = {baseline},
          .baselineWithSleeve = true,
          .meter = "M-1"};
}

MeterReading reading(int value) {
  base::SeededRandom random(1);
  return {.light = LightId(base::makeUuid7({}, random)),
          .on = base::Date::of(2026, 11, 17).value(),
          .value = {value},
          .withSleeve = true,
          .meter = "M-1"};
}

} // namespace

TEST_CASE("The three lights of the demo morning grade green and red and green") {
  // workflow.md 8: L-1 96 %, L-2 77 % out of use, L-3 91 %
  CHECK(grade(light(1080), reading(1040)) == LightGrade::green);
  CHECK(grade(light(1120), reading(860)) == LightGrade::red);
  CHECK(grade(light(990), reading(905)) == LightGrade::green);
}

TEST_CASE("Ten percent below the baseline is amber and twenty is red to the milliwatt") {
  CHECK(grade(light(1000), reading(901)) == LightGrade::green);
  CHECK(grade(light(1000), reading(900)) == LightGrade::amber);
  CHECK(grade(light(1000), reading(801)) == LightGrade::amber);
  CHECK(grade(light(1000), reading(800)) == LightGrade::red);
  CHECK(grade(light(1000), reading(0)) == LightGrade::red);
  CHECK(grade(light(1000), reading(5000)) == LightGrade::green);
}

TEST_CASE("A lower reading never grades better") {
  const auto rank = [](int value) {
    switch (grade(light(1117, 400), reading(value))) {
    case LightGrade::red:
      return 0;
    case LightGrade::amber:
      return 1;
    case LightGrade::green:
      return 2;
    case LightGrade::notComparable:
      break;
    }
    return -1;
  };
  for (int value = 1; value <= 1500; ++value)
    REQUIRE(rank(value - 1) <= rank(value));
}

TEST_CASE("Under the least output of its maker a light is red whatever its baseline") {
  CHECK(grade(light(410, 400), reading(399)) == LightGrade::red);
  CHECK(grade(light(410, 400), reading(400)) == LightGrade::green);
  auto bare = reading(399);
  bare.withSleeve = false;
  CHECK(grade(light(410, 400), bare) == LightGrade::red);
}

TEST_CASE("A reading without the sleeve is not compared with a baseline taken with it") {
  auto bare = reading(1040);
  bare.withSleeve = false;
  CHECK(grade(light(1080), bare) == LightGrade::notComparable);
}

TEST_CASE("A light is compared on the meter of its baseline only") {
  auto elsewhere = reading(1040);
  elsewhere.meter = "M-2";
  CHECK(grade(light(1080), elsewhere) == LightGrade::notComparable);
  auto unnamed = light(1080);
  unnamed.meter = "";
  elsewhere.meter = "";
  CHECK(grade(unnamed, elsewhere) == LightGrade::notComparable);
}

TEST_CASE("Without a baseline there is nothing to compare with") {
  CHECK(grade(light(0), reading(1040)) == LightGrade::notComparable);
}
