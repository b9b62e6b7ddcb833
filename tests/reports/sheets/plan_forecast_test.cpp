#include "reports/sheets/plan_forecast.h"

#include "estimates/shares/interval_policy.h"

#include <catch2/catch.hpp>

using namespace gk;

namespace {

reports::PastCare countyBefore() {
  return {.consented = 200,
          .screened = 180,
          .needing = 120,
          .sealed = 100,
          .sealedInAll = 100,
          .teeth = 350,
          .days = 10,
          .groups = {60, 50, 40, 50}};
}

} // namespace

TEST_CASE("What a planned day may bring is last terms' shares of its children", "[case-299]") {
  const auto past = countyBefore();
  const auto day = reports::forecast(past, 40);
  CHECK(day.screened == Approx(36));
  CHECK(day.needing == Approx(24));
  CHECK(day.sealed == Approx(20));
  CHECK(day.teeth == Approx(70));
  CHECK(day.childrenPerDay == Approx(18));
  // The interval is the project's own, of the share sealed: 100 of 200 in four groups.
  const auto range = estimates::intervalToRead({.share = 0.5,
                                                .teeth = 200,
                                                .clusters = 4,
                                                .clusterSize = (3600 + 2500 + 1600 + 2500) / 200.0,
                                                .designEffect = std::nullopt});
  REQUIRE(range.has_value());
  REQUIRE(day.teethRange.has_value());
  CHECK(day.teethRange->low == Approx(range->range.low * 40 * 3.5));
  CHECK(day.teethRange->high == Approx(range->range.high * 40 * 3.5));
  CHECK(day.teethRange->low < 70);
  CHECK(day.teethRange->high > 70);
  const auto pack = reports::supplies(day);
  CHECK(pack.sealantDoses >= day.teethRange->high);
  CHECK(pack.isolationSets == 40);
  CHECK(pack.glovePairs == 80);
  CHECK(pack.mirrors == 40);
}

TEST_CASE("Without an earlier term nothing is expected but the children", "[case-299]") {
  const auto day = reports::forecast({}, 25);
  CHECK(day.children == 25);
  CHECK_FALSE(day.teeth.has_value());
  CHECK_FALSE(day.teethRange.has_value());
  CHECK(reports::supplies(day).sealantDoses == 0);
  CHECK(reports::supplies(day).varnishDoses == 25);
  auto none = countyBefore();
  none.sealed = none.sealedInAll = 0;
  none.teeth = 0;
  CHECK(reports::forecast(none, 25).teeth == Approx(0));
  CHECK_FALSE(reports::forecast(none, 25).teethRange.has_value());
}
