#include "kit/material.h"

#include "base/random.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::kit;
using namespace std::chrono_literals;

namespace {

Lot resinFern(std::string lot, std::string_view expiry) {
  return {.kind = MaterialKind::sealantLightCure,
          .material = "Resin Fern",
          .lot = std::move(lot),
          .expiry = base::parseExpiry(expiry).value(),
          .makersTime = 20s,
          .contains = {Contains::acrylate},
          .quarantineReason = {}};
}

LightId someLight(std::uint64_t n) {
  base::SeededRandom random(n);
  return LightId(base::makeUuid7({}, random));
}

base::Date day(int year, unsigned month, unsigned dayOfMonth) {
  return base::Date::of(year, month, dayOfMonth).value();
}

} // namespace

TEST_CASE("A lot that expires in a month may be used until its last day", "[case-24]") {
  const auto lot = resinFern("RF-2700", "2027-03");
  CHECK(lot.expiry == day(2027, 3, 31));
  CHECK(checkUsable(lot, day(2027, 3, 31)));
  const auto refused = checkUsable(lot, day(2027, 4, 1));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == base::ErrorCode::ruleMaterial);
  CHECK(refused.error().detail.find("Resin Fern lot RF-2700 expired on March 31, 2027") == 0);
}

TEST_CASE("A lot that expires between two days of a visit is caught on the second", "[case-24]") {
  const auto lot = resinFern("RF-2701", "2026-11-17");
  CHECK(checkUsable(lot, day(2026, 11, 17)));
  CHECK_FALSE(checkUsable(lot, day(2026, 11, 18)));
}

TEST_CASE("The expired lot of the demo morning is refused and the fresh one is not") {
  CHECK_FALSE(checkUsable(resinFern("RF-2512", "2026-10"), day(2026, 11, 17)));
  CHECK(checkUsable(resinFern("RF-2609", "2027-04"), day(2026, 11, 17)));
}

TEST_CASE("A quarantined lot is refused with its reason") {
  auto lot = resinFern("RF-2609", "2027-04");
  lot.quarantined = true;
  lot.quarantineReason = "recall notice";
  const auto refused = checkUsable(lot, day(2026, 11, 17));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == base::ErrorCode::ruleMaterial);
  CHECK(refused.error().detail.find("recall notice") != std::string::npos);
}

TEST_CASE("A lot that was used up is refused from the next day on") {
  auto lot = resinFern("RF-2609", "2027-04");
  lot.usedUpOn = day(2026, 11, 16);
  const auto refused = checkUsable(lot, day(2026, 11, 17));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == base::ErrorCode::ruleMaterial);
  CHECK(refused.error().detail.find("was used up on November 16, 2026") != std::string::npos);
  CHECK(checkUsable(lot, day(2026, 11, 16))); // a visit of that day, typed late
}

TEST_CASE("Each of the three refusals of a lot is told by its own word", "[case-124]") {
  const auto lot = resinFern("RF-2609", "2027-04");
  const auto today = day(2026, 11, 17);
  CHECK_FALSE(refusalOf(lot, today));
  auto used = lot;
  used.usedUpOn = day(2026, 11, 16);
  CHECK(refusalOf(used, today) == LotRefusal::usedUp);
  auto aside = used;
  aside.quarantined = true;
  CHECK(refusalOf(aside, today) == LotRefusal::setAside);
  CHECK(refusalOf(resinFern("RF-2512", "2026-10"), today) == LotRefusal::expired);
}

TEST_CASE("The cure asked for is the table's for that light and material") {
  const auto lot = resinFern("RF-2609", "2027-04");
  const std::vector<CureTime> table{{someLight(1), "Resin Fern", 40s},
                                    {someLight(2), "Resin Fern", 30s},
                                    {someLight(1), "Resin Other", 90s}};
  CHECK(cureTarget(lot, someLight(1), table) == 40s);
  CHECK(cureTarget(lot, someLight(2), table) == 30s);
  CHECK(cureTarget(lot, someLight(3), table) == 20s);
  CHECK(cureTarget(lot, someLight(1), {}) == 20s);
}

TEST_CASE("The cure asked for is never under the material maker's") {
  const auto lot = resinFern("RF-2609", "2027-04");
  for (int seconds = 0; seconds < 60; ++seconds) {
    const std::vector<CureTime> table{{someLight(1), "Resin Fern", base::Seconds{seconds}}};
    CHECK(cureTarget(lot, someLight(1), table) >= lot.makersTime);
  }
}

TEST_CASE("Resins and glass ionomers seal and the other materials do not") {
  CHECK(isSealant(MaterialKind::sealantLightCure));
  CHECK(isSealant(MaterialKind::sealantSelfCure));
  CHECK(isSealant(MaterialKind::glassIonomer));
  CHECK_FALSE(isSealant(MaterialKind::etchant));
  CHECK_FALSE(isSealant(MaterialKind::bondingAgent));
  CHECK_FALSE(isSealant(MaterialKind::varnish));
}
