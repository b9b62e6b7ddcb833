#include "followup/placements_confirmed.h"
#include "reports/day/close_out_words.h"
#include "session/keys/pins.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

/// A day with four sealants of the hygienist's.
struct Sealed : test::PinClinic {
  roster::ChildId mina = child("Mina");
  base::By typed{hygienist, assistant};

  Sealed() {
    must(session.signIn(assistant, assistants));
    by = typed;
    standardVisit(mina);
  }
  session::OwnPin own() { return PinClinic::own(hygienist, hers); }
  std::size_t waiting() {
    const auto days = must(session.placementsToConfirm(hygienist));
    return days.empty() ? 0 : days.front().waiting.size();
  }
};

} // namespace

TEST_CASE("An operator confirms her own placements of a day at once", "[case-236]") {
  Sealed clinic;
  const auto days = must(clinic.session.placementsToConfirm(clinic.hygienist));
  REQUIRE(days.size() == 1);
  CHECK(days.front().all == 4);
  REQUIRE(days.front().waiting.size() == 4);
  CHECK(days.front().waiting.front().what.starts_with("new, "));
  must(clinic.session.confirmPlacements(clinic.typed, clinic.day, clinic.own()));
  CHECK(clinic.waiting() == 0);
  CHECK(must(clinic.session.dayRecords(clinic.day)).confirmed.size() == 4);
  CHECK(codeOf(clinic.session.confirmPlacements(clinic.typed, clinic.day, clinic.own())) ==
        ErrorCode::notFound);
}

TEST_CASE("No one confirms placements for another", "[case-236]") {
  Sealed clinic;
  CHECK(codeOf(clinic.session.confirmPlacements(clinic.typed, clinic.day)) == ErrorCode::pinNeeded);
  const auto others = clinic.PinClinic::own(clinic.assistant, test::PinClinic::assistants);
  CHECK(codeOf(clinic.session.confirmPlacements(clinic.typed, clinic.day, others)) ==
        ErrorCode::pinNeeded);
  // In her own name an assistant has nothing to confirm, and no right to.
  CHECK(codeOf(clinic.session.confirmPlacements({clinic.assistant, {}}, clinic.day, others)) ==
        ErrorCode::ruleCredential);
  CHECK(clinic.waiting() == 4);
}

TEST_CASE("A sealant that is corrected after she confirmed it waits for her again", "[case-237]") {
  Sealed clinic;
  must(clinic.session.confirmPlacements(clinic.typed, clinic.day, clinic.own()));
  const auto placed = must(clinic.session.placements(clinic.mina)).front();
  must(clinic.session.correctTooth(clinic.typed, placed, dentition::toothAt(17), "read back"));
  CHECK(clinic.waiting() == 1);
  must(clinic.session.confirmPlacements(clinic.typed, clinic.day, clinic.own()));
  CHECK(clinic.waiting() == 0);
}

TEST_CASE("One who fell ill confirms on a later day, though the day is signed by then",
          "[case-237]") {
  Sealed clinic;
  // She signs by her PIN, but is too ill to go through her placements.
  must(clinic.session.showSigner(clinic.hygienist, test::PinClinic::hers));
  must(clinic.session.signDay({clinic.coordinator, {}},
                              {clinic.day, clinic.hygienist, clinic.coordinator}));
  const auto sheet = [&] { return reports::closeOut(must(clinic.session.dayRecords(clinic.day))); };
  CHECK(reports::unconfirmedWords(sheet()).starts_with("4 of 4 placements not confirmed: "));
  CHECK(sheet().closed);
  clinic.clock.advance(std::chrono::hours(24 * 6));
  must(clinic.session.signIn(clinic.hygienist, test::PinClinic::hers));
  CHECK(clinic.waiting() == 4);
  must(clinic.session.confirmPlacements({clinic.hygienist, {}}, clinic.day, clinic.own()));
  CHECK(reports::unconfirmedWords(sheet()).empty());
  REQUIRE(sheet().confirmed.size() == 1);
  CHECK(sheet().confirmed.front().open() == 0);
}

TEST_CASE("What another laptop has and she did not see is not confirmed", "[case-237]") {
  const auto row = [](std::uint8_t laptop, std::int64_t sequence, std::uint8_t who) {
    const auto uuid = [](std::uint8_t a, std::uint8_t b) {
      base::Uuid id{};
      id.bytes[0] = a;
      id.bytes[15] = b;
      return id;
    };
    const auto entry = uuid(laptop, static_cast<std::uint8_t>(sequence));
    chairside::Placement placement{.child = roster::ChildId(base::Uuid{}),
                                   .day = roster::DayId(base::Uuid{}),
                                   .field = chairside::FieldId(base::Uuid{}),
                                   .tooth = dentition::toothAt(16),
                                   .surfaces = {},
                                   .type = chairside::PlacementType::fresh,
                                   .attempt = chairside::Attempt::complete,
                                   .placedBy = base::MemberId(uuid(9, who)),
                                   .assistant = {},
                                   .isolation = chairside::Isolation::rollsWithHolders,
                                   .fourHanded = false,
                                   .sealant = kit::LotId(base::Uuid{}),
                                   .etchant = {},
                                   .light = {},
                                   .etched = {},
                                   .cured = {},
                                   .note = {}};
    return base::Recorded<chairside::Placement>{
        chairside::PlacementId(entry),
        {base::EntryId(entry), base::LaptopId(uuid(laptop, 0)), sequence, {}, {}, {}, {}},
        placement};
  };
  // Laptop 1 wrote rows 1 to 3 of operator 7 and row 2 of operator 8; laptop 2 wrote row 1 of hers.
  const std::vector ever{row(1, 1, 7), row(1, 2, 8), row(1, 3, 7), row(2, 1, 7), row(1, 4, 7)};
  const auto last = followup::lastOfEachLaptop(std::span(ever).first(3));
  REQUIRE(last.size() == 1);
  const base::Recorded<followup::PlacementsConfirmed> said{
      followup::PlacementsConfirmedId(base::Uuid{}),
      ever[0].stamp,
      {ever[0].value.day, ever[0].value.placedBy, last.front()}};
  const auto confirmed = followup::confirmedRows(ever, std::span(&said, 1));
  CHECK(confirmed == std::set{ever[0].stamp.entry, ever[2].stamp.entry});
}
