#include "reports/calls/recall_list.h"
#include "reports/records/inputs.h"
#include "session/light_reading.h"
#include "session/second_laptop.h"

#include <algorithm>
#include <set>
#include <stdexcept>

// One lot, or one light, that two laptops entered while apart.
using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;
using test::Second;

namespace {

/// Both laptops enter the same lot apart; `merge` brings the second's records here.
struct TwinKit : test::Clinic {
  roster::ChildId mina = child("Mina");
  Second other{*this, "other.gkbook", 11};
  kit::LotId here = must(session.enterLot(by, resinOf("Resin Heath", "RH-3000")));
  kit::LotId there = must(other.session.enterLot(by, resinOf("resin heath", "rh 3000")));

  static kit::Lot resinOf(const char* material, const char* number) {
    return {.kind = kit::MaterialKind::sealantLightCure,
            .material = material,
            .lot = number,
            .expiry = must(base::Date::parse("2027-09-30")),
            .makersTime = base::Seconds(20),
            .contains = {},
            .quarantineReason = {}};
  }
  void merge() { must(session.absorb(other.handOver())); }
  kit::Lot lot(kit::LotId id) {
    for (const auto& row : must(session.lots()))
      if (row.id == id) return row.value;
    throw std::runtime_error("no such lot");
  }
  ErrorCode isolating(kit::LotId sealant) {
    auto field = this->field(mina, {16});
    field.sealant = sealant;
    return codeOf(session.isolate(by, field));
  }
};

} // namespace

TEST_CASE("A lot entered on two laptops and set aside on one is refused under either",
          "[case-327]") {
  TwinKit clinic;
  must(clinic.other.session.quarantineLot(clinic.by, clinic.there, "recalled"));
  clinic.merge();
  for (const auto id : {clinic.here, clinic.there}) {
    const auto lot = clinic.lot(id);
    CHECK(lot.quarantined);
    CHECK(lot.quarantineReason == "recalled");
    CHECK(kit::refusalOf(lot, clinic.clock.now().date()) == kit::LotRefusal::setAside);
  }
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  CHECK(clinic.isolating(clinic.here) == ErrorCode::ruleMaterial);
  CHECK(clinic.isolating(clinic.there) == ErrorCode::ruleMaterial);
  for (const auto& row : must(clinic.session.dayRecords(clinic.day)).lots)
    if (row.id == clinic.here) CHECK(row.value.quarantined);

  // Put back in use it is back on both, and set aside again it is aside on both.
  auto lot = clinic.lot(clinic.here);
  lot.quarantined = false;
  must(clinic.session.correctLot({clinic.hygienist, {}}, clinic.here, lot, "cleared by the maker"));
  CHECK_FALSE(clinic.lot(clinic.here).quarantined);
  CHECK_FALSE(clinic.lot(clinic.there).quarantined);
  must(clinic.session.quarantineLot(clinic.by, clinic.here, "recalled again"));
  for (const auto id : {clinic.here, clinic.there})
    CHECK(must(clinic.session.revisions<kit::Lot>(id)).back().value.quarantined);
  CHECK(codeOf(clinic.session.enterLot(clinic.by, TwinKit::resinOf("Resin Heath", "RH-3000"))) ==
        ErrorCode::ruleMaterial);
}

TEST_CASE("What a lot contains on one laptop it contains under either entry", "[case-327]") {
  TwinKit clinic;
  auto lot = must(clinic.other.session.revisions<kit::Lot>(clinic.there)).back().value;
  lot.contains.add(kit::Contains::latex);
  lot.expiry = must(base::Date::parse("2027-03-31"));
  must(clinic.other.session.correctLot(clinic.by, clinic.there, lot, "read on the package"));
  must(clinic.session.enterFlag(clinic.by, {clinic.mina, roster::FlagKind::latexAllergy,
                                            roster::FlagAction::stop, "", false, ""}));
  clinic.merge();
  CHECK(clinic.lot(clinic.here).contains.has(kit::Contains::latex));
  CHECK(clinic.lot(clinic.here).expiry == must(base::Date::parse("2027-03-31")));
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  CHECK_FALSE(clinic.session.isolate(clinic.by, [&] {
    auto field = clinic.field(clinic.mina, {16});
    field.sealant = clinic.here;
    return field;
  }()));
}

TEST_CASE("A recall finds the teeth of a lot under both entries", "[case-327]") {
  TwinKit clinic;
  const auto lupe = clinic.child("Lupe");
  clinic.merge();
  const auto seal = [&](roster::ChildId child, kit::LotId sealant) {
    clinic.seat(child);
    clinic.screenFour(child);
    auto field = clinic.field(child, {16});
    field.sealant = sealant;
    clinic.sealAll(must(clinic.session.isolate(clinic.by, field)), {16});
  };
  seal(clinic.mina, clinic.here);
  seal(lupe, clinic.there);
  const auto records = must(
      clinic.session.termRecords(clinic.term, clinic.clock.now().date(), session::Reach::program));
  const reports::Recalled what{.lot = "RH-3000", .material = "Resin Heath"};
  CHECK(reports::childrenTouched(records, what) == std::set{clinic.mina, lupe});
}

TEST_CASE("A light entered on two laptops and out of service on one is out under either",
          "[case-327]") {
  test::Clinic clinic;
  Second other(clinic, "other.gkbook", 11);
  const kit::Light light{.tag = "L-7", .makersLeast = {}, .baseline = {1000}, .meter = "M-1"};
  const auto here = must(clinic.session.enterLight(clinic.by, light));
  const auto there = must(other.session.enterLight(clinic.by, light));
  auto now = [&](session::Session& at, kit::LightId id) {
    for (const auto& row : must(at.lights()))
      if (row.id == id) return row;
    throw std::runtime_error("no such light");
  };
  auto broken = now(other.session, there).value;
  broken.inService = false;
  must(other.session.correctLight(clinic.by, now(other.session, there), broken, "cracked tip"));
  must(clinic.session.absorb(other.handOver()));
  CHECK_FALSE(now(clinic.session, here).value.inService);
  CHECK_FALSE(now(clinic.session, there).value.inService);
  auto back = now(clinic.session, here).value;
  back.inService = true;
  must(clinic.session.correctLight(clinic.by, now(clinic.session, here), back, "new tip"));
  CHECK(now(clinic.session, here).value.inService);
  CHECK(now(clinic.session, there).value.inService);
  // Two lights that were only called alike: one takes another tag.
  auto renamed = now(clinic.session, here).value;
  renamed.tag = "L-8";
  must(clinic.session.correctLight(clinic.by, now(clinic.session, here), renamed, "another light"));
  CHECK(now(clinic.session, there).value.tag == "L-7");
}

TEST_CASE("A light that reads red under one laptop's entry reads red under the other's",
          "[case-327]") {
  test::Clinic clinic;
  Second other(clinic, "other.gkbook", 11);
  const kit::Light light{.tag = "L-7", .makersLeast = {}, .baseline = {1000}, .meter = "M-1"};
  const auto here = must(clinic.session.enterLight(clinic.by, light));
  const auto there = must(other.session.enterLight(clinic.by, light));
  const auto on = must(clinic.session.careDate());
  CHECK_FALSE(must(session::readsRed(clinic.session, here, on)));
  must(other.session.enterReading(clinic.by, {there, on, {600}, true, "M-1", true}));
  must(clinic.session.absorb(other.handOver()));
  CHECK(must(session::readsRed(clinic.session, here, on)));
  CHECK(must(session::readsRed(clinic.session, there, on)));
  CHECK_FALSE(must(session::readsRed(clinic.session, here, on.plusDays(1))));
  CHECK(codeOf(session::readsRed(clinic.session, kit::LightId(clinic.child("Mina").uuid()), on)) ==
        ErrorCode::notFound);
}
