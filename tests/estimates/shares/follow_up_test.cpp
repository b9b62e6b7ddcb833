#include "estimates/shares/follow_up.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace gk;
using namespace gk::estimates;

TEST_CASE("Teeth not examined bound the retention of Culler and Henshaw 2004") {
  // Published: 760 teeth sealed, 575 examined at one year, 75 % intact (431 teeth). Derived: if all
  // 185 others were lost 431/760, if all were kept 616/760.
  const auto found = followUpBounds({760, 575, 431}).value();
  CHECK(found.followed == Approx(.757).margin(5e-4));
  CHECK(found.observed.value() == Approx(.75).margin(5e-4));
  CHECK(found.bounds.low == Approx(.5671).margin(5e-5));
  CHECK(found.bounds.high == Approx(.8105).margin(5e-5));
}

TEST_CASE("An assumption about those not examined narrows the bounds") {
  const auto found = followUpBounds({100, 80, 72}, {.6, .9}).value();
  CHECK(found.bounds.low == Approx(.84));
  CHECK(found.bounds.high == Approx(.90));
}

TEST_CASE("Complete follow-up leaves no doubt and none leaves everything open") {
  const auto all = followUpBounds({50, 50, 45}).value();
  CHECK(all.bounds == Interval{.9, .9});
  CHECK(all.followed == 1);
  const auto none = followUpBounds({50, 0, 0}).value();
  CHECK(none.bounds == Interval{0, 1});
  CHECK(none.followed == 0);
  CHECK(!none.observed);
}

TEST_CASE("Follow-up that cannot be is refused") {
  CHECK(!followUpBounds({0, 0, 0}));
  CHECK(!followUpBounds({50, 60, 40}));
  CHECK(!followUpBounds({50, 40, 41}));
  CHECK(!followUpBounds({50, -1, 0}));
  CHECK(!followUpBounds({std::nan(""), 1, 0}));
  CHECK(!followUpBounds({50, std::nan(""), 0}));
  CHECK(!followUpBounds({50, 40, 30}, {.9, .6}));
  CHECK(!followUpBounds({50, 40, 30}, {-.1, 1}));
  CHECK(!followUpBounds({50, 40, 30}, {0, std::nan("")}));
}
