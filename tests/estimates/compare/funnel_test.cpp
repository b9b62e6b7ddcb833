#include "estimates/compare/funnel.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <vector>

using namespace gk;
using namespace gk::estimates;

TEST_CASE("Funnel limits at 92 percent have their worked values") {
  // Derived from the formula of Spiegelhalter 2005, Stat Med 24:1185-202.
  CHECK(binomialLimit(.92, 20, .975).value() == Approx(.9934).margin(5e-5));
  CHECK(binomialLimit(.92, 20, .999).value() == Approx(.9997).margin(5e-5));
  const auto twenty = funnelLimits(.92, 20).value();
  CHECK(twenty.farLow == Approx(.6557).margin(5e-5));
  CHECK(twenty.low == Approx(.7564).margin(5e-5));
  CHECK(twenty.high == 1);
  CHECK(twenty.farHigh == 1);
  const auto hundred = funnelLimits(.92, 100).value();
  CHECK(hundred.farLow == Approx(.8205).margin(5e-5));
  CHECK(hundred.low == Approx(.8578).margin(5e-5));
  // One tooth above the formula's .9646 and .9863, which lie below the count that they cut off.
  CHECK(hundred.high == Approx(.9746).margin(5e-5));
  CHECK(hundred.farHigh == Approx(.9963).margin(5e-5));
}

TEST_CASE("A count is outside the funnel just where it, or one further out, is that unlikely",
          "[case-369]") {
  for (const double theta : {.5, .872, .92, .97})
    for (const int n : {1, 3, 4, 6, 12, 22, 57, 140}) {
      // Binomial probabilities by their recurrence; nothing of the beta function.
      std::vector<double> chance(static_cast<std::size_t>(n) + 1);
      chance[0] = std::pow(1 - theta, n);
      for (std::size_t k = 1; k < chance.size(); ++k)
        chance[k] = chance[k - 1] * (n - static_cast<double>(k) + 1) / static_cast<double>(k) *
                    theta / (1 - theta);
      const auto limits = funnelLimits(theta, n).value();
      double upTo = 0;
      double before = 0;
      for (std::size_t k = 0; k < chance.size(); ++k) {
        upTo += chance[k];
        const auto place = placeIn(limits, static_cast<double>(k) / n);
        INFO(theta << ", " << k << " of " << n);
        CHECK((place == FunnelPlace::below || place == FunnelPlace::farBelow) == (upTo <= .025));
        CHECK((place == FunnelPlace::above || place == FunnelPlace::farAbove) ==
              (1 - before <= .025));
        CHECK((place == FunnelPlace::farBelow) == (upTo <= .001));
        CHECK((place == FunnelPlace::farAbove) == (1 - before <= .001));
        before = upTo;
      }
    }
}

TEST_CASE("A funnel limit is the binomial count with interpolation") {
  // n = 3, theta = .5: F = 1/8, 4/8, 7/8, 1. At .25: k = 1, (1 - (4/8 - .25)/(3/8)) / 3 = 1/9.
  CHECK(binomialLimit(.5, 3, .25).value() == Approx(1.0 / 9));
  CHECK(binomialLimit(.5, 3, .5).value() == Approx(1.0 / 3)); // at a step: k = 2 less its whole
}

TEST_CASE("Funnel limits stay in 0 to 1 and narrow with more teeth") {
  double before = 1;
  for (const double n : {0.4, 1.0, 2.5, 7.3, 20.0, 64.9, 300.0, 5000.0, 1e6}) {
    const auto found = funnelLimits(.92, n).value();
    CHECK(found.farLow >= 0);
    CHECK(found.farLow <= found.low);
    CHECK(found.low <= found.high);
    CHECK(found.high <= found.farHigh);
    CHECK(found.farHigh <= 1);
    CHECK(found.high - found.low <= before);
    before = found.high - found.low;
  }
  // the normal limits at a million teeth
  CHECK(before == Approx(2 * 1.959964 * std::sqrt(.92 * .08 / 1e6)).epsilon(2e-3));
}

TEST_CASE("A fractional effective number lies between its neighbors") {
  const double low = binomialLimit(.9, 40, .025).value();
  const double middle = binomialLimit(.9, 40.5, .025).value();
  const double high = binomialLimit(.9, 41, .025).value();
  CHECK(middle > std::min(low, high) - 1e-3);
  CHECK(middle < std::max(low, high) + 1e-3);
}

TEST_CASE("A funnel at 0 or 1 flags any exception") {
  const auto none = funnelLimits(0, 20).value();
  CHECK(none.low == 0);
  CHECK(none.high < 1.0 / 20);
  const auto all = funnelLimits(1, 20).value();
  CHECK(all.low > 19.0 / 20);
  CHECK(all.high <= 1);
}

TEST_CASE("Units are placed within and beyond the limits") {
  const FunnelLimits limits{.6, .7, .9, .95};
  CHECK(placeIn(limits, .59) == FunnelPlace::farBelow);
  CHECK(placeIn(limits, .6) == FunnelPlace::below);
  CHECK(placeIn(limits, .7) == FunnelPlace::within);
  CHECK(placeIn(limits, .9) == FunnelPlace::within);
  CHECK(placeIn(limits, .95) == FunnelPlace::above);
  CHECK(placeIn(limits, .96) == FunnelPlace::farAbove);
}

TEST_CASE("A lot that departs from the program is found and a small one is spared") {
  std::vector<Unit> units(9, {100, 92});
  units.push_back({100, 70});
  units.push_back({4, 3}); // three of four is no departure
  units.push_back({0, 0});
  const auto found = departures(units, 1).value();
  CHECK(found.theta == Approx((9 * 92 + 70 + 3) / 1004.0));
  CHECK(found.units[9].place == FunnelPlace::farBelow);
  CHECK(found.units[10].place == FunnelPlace::within);
  CHECK(!found.units[11].share);
  CHECK(!found.units[11].limits);
  CHECK(found.has(FunnelNote::emptyUnits));
  CHECK(!found.has(FunnelNote::fewUnits));
  CHECK(found.expectedByChance == Approx(11 * .05));
}

TEST_CASE("A design effect widens the funnel") {
  std::vector<Unit> units(9, {100, 92});
  units.push_back({100, 83});
  CHECK(departures(units, 1)->units[9].place == FunnelPlace::below);
  const auto clustered = departures(units, 2.5).value();
  CHECK(clustered.units[9].place == FunnelPlace::within);
  CHECK(clustered.units[9].effectiveN == 40);
}

TEST_CASE("A program with all kept has no departures") {
  const auto all = departures(std::vector<Unit>(3, {10, 10}), 1).value();
  CHECK(all.has(FunnelNote::allOrNone));
  CHECK(all.has(FunnelNote::fewUnits));
  for (const auto& unit : all.units)
    CHECK(unit.place == FunnelPlace::within);
  const auto none = departures(std::vector<Unit>(3, {10, 0}), 1).value();
  CHECK(none.theta == 0);
  for (const auto& unit : none.units)
    CHECK(unit.place == FunnelPlace::within);
}

TEST_CASE("A funnel refuses what it cannot use") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(!binomialLimit(1.1, 20, .025));
  CHECK(!binomialLimit(nan, 20, .025));
  CHECK(!binomialLimit(.9, 0, .025));
  CHECK(!binomialLimit(.9, nan, .025));
  CHECK(!binomialLimit(.9, 2e6, .025));
  CHECK(!binomialLimit(.9, 20, 0));
  CHECK(!binomialLimit(.9, 20, nan));
  CHECK(!funnelLimits(.9, 20, {.5, .001}));
  CHECK(!funnelLimits(.9, 20, {.01, .02}));
  CHECK(!departures({}, 1));
  CHECK(!departures(std::vector<Unit>{{0, 0}}, 1));
  CHECK(!departures(std::vector<Unit>{{10, 9}}, .9));
  const auto found = departures(std::vector<Unit>{{10, 9}, {10, 11}}, 1);
  REQUIRE(!found);
  CHECK(found.error().detail.find("Unit 2") == 0);
  CHECK(!departures(std::vector<Unit>{{10, -1}}, 1));
  CHECK(!departures(std::vector<Unit>{{nan, 1}}, 1));
}
