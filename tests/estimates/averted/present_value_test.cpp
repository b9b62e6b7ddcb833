#include "estimates/averted/present_value.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace gk;
using namespace gk::estimates;

TEST_CASE("The present value is that of Griffin 2017") {
  // Am J Prev Med 52:407-15: cost $11.64, benefit $6.29 a year for 4 years at 3 % -> $23.37, net
  // $11.73; the inputs are printed rounded, hence two cents
  const double worth = presentValue(6.29, 4, .03).value();
  CHECK(worth == Approx(23.37).margin(.02));
  CHECK(worth - 11.64 == Approx(11.73).margin(.02));
  CHECK(worth == Approx(23.381).margin(5e-4)); // derived
}

TEST_CASE("Without discount the yearly sums add up") {
  CHECK(presentValue(5, 4, 0).value() == Approx(20));
  CHECK(presentValue(5, 0, .03).value() == 0);
}

TEST_CASE("Money that cannot be is refused") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const auto& result :
       {presentValue(nan, 4, .03), presentValue(1, -1, .03), presentValue(1, 4, 3)}) {
    REQUIRE(!result);
    CHECK(result.error().code == base::ErrorCode::estimateInput);
  }
}
