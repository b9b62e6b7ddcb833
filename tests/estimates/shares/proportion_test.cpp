#include "estimates/shares/proportion.h"

#include "base/random.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

void checkInterval(const base::Result<Interval>& result, double low, double high) {
  REQUIRE(result);
  CHECK(result->low == Approx(low).margin(5.1e-5)); // printed to four decimals
  CHECK(result->high == Approx(high).margin(5.1e-5));
}

} // namespace

// Newcombe 1998, Stat Med 17:857-72, Table I, methods 3 (score) and 5 (Clopper-Pearson).
TEST_CASE("Wilson intervals are those of Newcombe 1998 Table I") {
  checkInterval(wilson(81, 263), .2553, .3662);
  checkInterval(wilson(15, 148), .0624, .1605);
  checkInterval(wilson(0, 20), 0, .1611);
  CHECK(wilson(0, 20)->low == 0);
}

TEST_CASE("Clopper-Pearson intervals are those of Newcombe 1998 Table I") {
  checkInterval(clopperPearson(81, 263), .2527, .3676);
  checkInterval(clopperPearson(15, 148), .0578, .1617);
  checkInterval(clopperPearson(0, 20), 0, .1684);
  CHECK(clopperPearson(0, 20)->low == 0);
}

TEST_CASE("Shares follow the arithmetic of Culler and Henshaw 2004") {
  // APHA 132nd meeting, abstract: 575 of 760 teeth and 174 of 227 children seen at one year
  CHECK(share(575, 760).value() == Approx(.757).margin(.0005));
  CHECK(share(174, 227).value() == Approx(.767).margin(.0005));
}

TEST_CASE("Exact limits with no success have their closed form") {
  for (const double n : {1.0, 7.0, 20.0, 300.0}) {
    const double top = 1 - std::pow(0.025, 1 / n);
    CHECK(clopperPearson(0, n)->high == Approx(top).epsilon(1e-12));
    CHECK(clopperPearson(n, n)->low == Approx(1 - top).epsilon(1e-12));
    CHECK(clopperPearson(n, n)->high == 1);
    CHECK(wilson(n, n)->high == 1);
  }
}

TEST_CASE("Intervals hold the share mirror each other and shrink with size") {
  base::SeededRandom random(11);
  for (int i = 0; i < 400; ++i) {
    const double n = 1 + std::floor(random.uniform() * 500);
    const double x = std::floor(random.uniform() * (n + 1));
    const double p = x / n;
    for (const auto method : {&wilson, &clopperPearson}) {
      const auto here = method(x, n, .95).value();
      const auto mirror = method(n - x, n, .95).value();
      const auto larger = method(4 * x, 4 * n, .95).value();
      const auto surer = method(x, n, .99).value();
      CHECK(here.low >= 0);
      CHECK(here.high <= 1);
      CHECK(here.low <= p);
      CHECK(here.high >= p);
      CHECK(mirror.low == Approx(1 - here.high).margin(1e-10));
      CHECK(larger.high - larger.low < here.high - here.low);
      CHECK(surer.high - surer.low > here.high - here.low);
    }
  }
}

TEST_CASE("A share that cannot be is refused with a sentence") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinite = std::numeric_limits<double>::infinity();
  for (const auto& result :
       {wilson(1, 0), wilson(3, 2), wilson(-1, 5), wilson(nan, 5), clopperPearson(1, nan),
        clopperPearson(1, infinite), wilson(1, 5, 1), clopperPearson(1, 5, 0), wilson(1, 5, nan)}) {
    REQUIRE(!result);
    CHECK(result.error().code == base::ErrorCode::estimateInput);
    CHECK(result.error().detail.back() == '.');
  }
  CHECK(share(3, 2).error().detail == "The part 3 is more than the whole 2; correct one of them.");
}
