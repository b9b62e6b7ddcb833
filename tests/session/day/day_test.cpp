#include "reports/day/close_out.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

session::Place placeOf(test::Clinic& clinic, roster::ChildId child) {
  for (const auto& line : must(clinic.session.board(clinic.day)))
    if (line.child == child) return line.place;
  FAIL("not on the board");
  return {};
}

} // namespace

TEST_CASE("The board follows a child from waiting to done") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  CHECK(placeOf(clinic, mina) == session::Place::waiting);
  clinic.seat(mina);
  CHECK(placeOf(clinic, mina) == session::Place::inChair);
  clinic.seat(wren);
  CHECK(placeOf(clinic, mina) == session::Place::parked);
  clinic.screenFour(mina);
  for (const auto& half : {std::vector{16, 46}, std::vector{26, 36}})
    clinic.sealAll(must(clinic.session.isolate(clinic.by, clinic.field(mina, half))), half);
  clinic.end(mina, chairside::DayEnd::sealedComplete);
  CHECK(placeOf(clinic, mina) == session::Place::done);
  CHECK(must(clinic.session.childInChair(clinic.day)) == wren);
}

TEST_CASE("A late form makes a child ready for the chair at once", "[case-13]") {
  test::Clinic clinic;
  const auto late = clinic.childWithoutForm("Juniper", "Marsh");
  CHECK(must(clinic.session.board(clinic.day)).empty());
  auto form = clinic.form(late);
  form.signedOn = form.receivedOn = clinic.clock.now().date();
  form.validFrom = form.signedOn;
  must(clinic.session.enterConsent(clinic.by, form));
  CHECK(placeOf(clinic, late) == session::Place::waiting);
  clinic.standardVisit(late);
}

TEST_CASE("A child not on the roster is provisional until the school confirms", "[case-15]") {
  test::Clinic clinic;
  roster::Child child{.number = roster::withCheckDigit("3001"),
                      .birth = {2019, 3},
                      .school = clinic.school,
                      .grade = "2",
                      .room = "7",
                      .provisional = true,
                      .note = {}};
  const auto id = must(clinic.session.enrollChild(
      clinic.by, child,
      {.first = "Ada", .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))}));
  CHECK(must(clinic.session.child(id)).value.provisional);
  CHECK(codeOf(clinic.session.confirmProvisional(clinic.by, id, "")) == ErrorCode::ruleReason);
  must(clinic.session.confirmProvisional(clinic.by, id, "school office, 11:20"));
  const auto confirmed = must(clinic.session.child(id));
  CHECK_FALSE(confirmed.value.provisional);
  CHECK(confirmed.stamp.reason == "school office, 11:20");
}

TEST_CASE("A roster is taken in as a whole or not at all") {
  test::Clinic clinic;
  const auto child = [&](const char* digits) {
    return roster::Child{.number = roster::withCheckDigit(digits),
                         .birth = {2019, 3},
                         .school = clinic.school,
                         .grade = "2",
                         .room = {},
                         .note = {}};
  };
  const session::Identity ada{.first = "Ada", .birth = must(base::Date::parse("2019-03-14"))};
  const auto form = [&](roster::ChildId id) { return clinic.form(id); };
  const auto doubled =
      clinic.session.enrollRoster(clinic.by, {{child("5001"), ada, form}, {child("5001"), ada}});
  CHECK(codeOf(doubled) == ErrorCode::textMalformed);
  CHECK(must(clinic.session.findChildren("ada")).empty());
  const auto ids = must(
      clinic.session.enrollRoster(clinic.by, {{child("5001"), ada, form}, {child("5002"), ada}},
                                  session::Confirmed::no, session::Confirmed::yes));
  REQUIRE(ids.size() == 2);
  CHECK(must(clinic.session.consents(ids[0])).size() == 1);
  CHECK(must(clinic.session.consents(ids[1])).empty());
}

TEST_CASE("Last year's form without the recheck tick does not let anyone look", "[case-12]") {
  test::Clinic clinic;
  const auto child = clinic.childWithoutForm("Mina");
  auto form = clinic.form(child);
  form.allowed.remove(roster::Service::recheckAndReplace);
  must(clinic.session.enterConsent(clinic.by, form));
  clinic.standardVisit(child);
  const auto placement = must(clinic.session.placements(child)).at(0);
  followup::RetentionCheck check{.placement = placement.id,
                                 .child = child,
                                 .day = clinic.day,
                                 .kind = followup::CheckKind::longTerm,
                                 .occlusal = followup::Held::whole,
                                 .lingual = followup::Held::whole,
                                 .note = {}};
  CHECK(codeOf(clinic.session.enterCheck(clinic.by, check)) == ErrorCode::ruleConsent);
}

TEST_CASE("A day is signed by two people once every line reconciles and is then shut") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto absent = clinic.child("Wren");
  const roster::DayClosure closure{clinic.day, clinic.hygienist, clinic.coordinator};
  clinic.standardVisit(mina);
  CHECK(codeOf(clinic.session.signDay(clinic.by, closure)) == ErrorCode::ruleDayOpen);
  clinic.end(absent, chairside::DayEnd::absent);
  const auto sheet =
      reports::closeOut(must(clinic.session.dayRecords(clinic.day)), must(clinic.session.names()));
  CHECK(sheet.balanced());
  CHECK(codeOf(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist,
                                                  clinic.hygienist})) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.signDay(clinic.by, {clinic.day, clinic.coordinator,
                                                  clinic.hygienist})) == ErrorCode::ruleCredential);
  must(clinic.session.signDay(clinic.by, closure));
  CHECK(codeOf(clinic.session.seat(
            clinic.by, {absent,
                        clinic.day,
                        {chairside::Identifier::spokenName, chairside::Identifier::slipScan}})) ==
        ErrorCode::ruleDayOpen);
}

TEST_CASE("A timer that was running when the power failed is found as interrupted", "[case-68]") {
  test::Scratch folder;
  roster::ChildId child = [&] {
    test::Clinic clinic(folder / "book.gkbook", session::BookKind::real);
    const auto mina = clinic.child("Mina");
    clinic.seat(mina);
    clinic.screenFour(mina);
    const auto right = must(clinic.session.isolate(clinic.by, clinic.field(mina, {16, 46})));
    clinic.etchToFlow(right, {16, 46});
    must(clinic.session.startTimer(clinic.by,
                                   {right,
                                    chairside::Step::cure,
                                    {{dentition::toothAt(16), {dentition::Surface::occlusal}}},
                                    base::Seconds(20),
                                    clinic.light}));
    return mina;
  }();
  base::ManualClock clock(base::atLocal(must(base::Date::parse("2026-11-17")),
                                        std::chrono::minutes(600), std::chrono::minutes(-300)));
  base::SeededRandom random(7);
  auto again = must(session::Session::open(folder / "book.gkbook",
                                           base::LaptopId(base::makeUuid7(clock.now().at, random)),
                                           {clock, random}));
  const auto day = must(again.openDayNow());
  CHECK(must(again.childInChair(day.id)) == child);
  const auto states = must(again.fields(child, day.id));
  REQUIRE(states.size() == 1);
  REQUIRE(states[0].running.has_value());
  CHECK(states[0].running->value.step == chairside::Step::cure);
  CHECK(states[0].protocol.next() == chairside::Next::cure);
}

TEST_CASE("Names stay sealed until the passphrase opens them") {
  test::Scratch folder;
  const auto child = [&] {
    test::Clinic clinic(folder / "book.gkbook", session::BookKind::throwaway);
    const auto mina = clinic.child("Mina", "Tolliver-Reed");
    must(clinic.session.finish());
    return mina;
  }();
  const auto bytes = must(base::readFile(folder / "book.gkbook"));
  CHECK(bytes.find("Tolliver") == std::string::npos);
  CHECK(bytes.find("Mina") == std::string::npos);
  base::ManualClock clock({});
  clock.setWall(base::atLocal(must(base::Date::parse("2026-11-17")), std::chrono::minutes(600),
                              std::chrono::minutes(0)));
  base::SeededRandom random(7);
  auto again = must(session::Session::open(folder / "book.gkbook",
                                           base::LaptopId(base::makeUuid7(clock.now().at, random)),
                                           {clock, random}));
  CHECK(codeOf(again.identity(child)) == ErrorCode::vaultLocked);
  CHECK(must(again.findChildren("1043")).at(0).name.starts_with("1043"));
  CHECK(codeOf(again.unlock("loud gym floor")) == ErrorCode::vaultWrongPassphrase);
  must(again.unlock(test::Clinic::passphrase));
  CHECK(must(again.identity(child)).shownName() == "Mina Tolliver-Reed");
  again.lock();
  CHECK(codeOf(again.identity(child)) == ErrorCode::vaultLocked);
}

TEST_CASE("The board has room 6 before room 12, as the runner walks") {
  test::Clinic clinic;
  clinic.child("Zoe"); // in room 6, as all of the clinic
  const roster::Child card{.number = roster::withCheckDigit("3001"),
                           .birth = {2019, 3},
                           .school = clinic.school,
                           .grade = "2",
                           .room = "12",
                           .note = {}};
  const auto id = must(clinic.session.enrollChild(
      clinic.by, card,
      {.first = "Ada", .last = "Quill", .birth = must(base::Date::parse("2019-03-20"))}));
  must(clinic.session.enterConsent(clinic.by, clinic.form(id)));
  const auto lines = must(clinic.session.board(clinic.day));
  REQUIRE(lines.size() == 2);
  CHECK(lines.front().room == "6");
  CHECK(lines.back().room == "12");
}
