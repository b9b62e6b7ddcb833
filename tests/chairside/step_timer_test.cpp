#include "chairside/step_timer.h"

#include <catch2/catch.hpp>

using namespace std::chrono_literals;
using gk::chairside::StepTimer;

TEST_CASE("a step timer counts up through its target and on") {
  StepTimer timer(20s, 1000ms);
  CHECK(timer.elapsed(1000ms) == 0ms);
  CHECK_FALSE(timer.reached(20999ms));
  CHECK(timer.reached(21000ms));
  CHECK(timer.elapsed(46000ms) == 45000ms);
  CHECK(timer.target() == 20s);
}

TEST_CASE("a step timer takes presses closer than 300 ms for one") {
  const StepTimer timer(20s, 1000ms);
  CHECK_FALSE(timer.accepts(1000ms));
  CHECK_FALSE(timer.accepts(1299ms));
  CHECK(timer.accepts(1300ms));
}

TEST_CASE("a step timer that the computer slept through is interrupted for good") {
  StepTimer timer(20s, 0ms);
  CHECK(timer.observe(5000ms));
  CHECK(timer.observe(10000ms));
  CHECK_FALSE(timer.observe(15001ms));
  CHECK(timer.slept());
  CHECK_FALSE(timer.observe(15100ms));
  CHECK(timer.elapsed(60000ms) == 10000ms);
  CHECK_FALSE(timer.reached(60000ms));
}

TEST_CASE("a step timer never runs backwards") {
  StepTimer timer(20s, 1000ms);
  CHECK(timer.observe(4000ms));
  CHECK(timer.elapsed(500ms) == 3000ms);
  CHECK(timer.observe(3000ms));
  CHECK(timer.elapsed(4000ms) == 3000ms);
}
