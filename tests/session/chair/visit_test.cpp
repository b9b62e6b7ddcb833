#include "reports/print/render.h"
#include "reports/term/term_tables.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

TEST_CASE("A standard visit leaves four complete placements with what was timed") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina", "Tolliver-Reed");
  clinic.standardVisit(mina);
  const auto placements = must(clinic.session.placements(mina));
  REQUIRE(placements.size() == 4);
  for (const auto& [id, stamp, placement] : placements) {
    CHECK(placement.attempt == chairside::Attempt::complete);
    CHECK(placement.type == chairside::PlacementType::fresh);
    CHECK(placement.placedBy == clinic.hygienist);
    CHECK(placement.etched == base::Seconds(22));
    CHECK(placement.cured == base::Seconds(20));
    CHECK(placement.frosty);
    CHECK(placement.light == clinic.light);
    CHECK(stamp.by.recorder == clinic.assistant);
  }
}

TEST_CASE("No placement without a valid consent on that day", "[case-1]") {
  test::Clinic clinic;
  const auto jory = clinic.child("Jory", "Amberly");
  clinic.clock.advance(std::chrono::minutes(102));
  must(clinic.session.withdrawConsent(clinic.by, jory, "by phone, taken by Ines"));
  const auto standing =
      must(clinic.session.standing(jory, roster::Service::sealants, clinic.clock.now().date()));
  CHECK(standing.state == roster::ConsentState::withdrawn);
  CHECK(standing.why == "withdrawn Nov 17, 2026, 10:42 AM, by phone, taken by Ines");
  CHECK(codeOf(clinic.session.seat(
            clinic.by, {jory,
                        clinic.day,
                        {chairside::Identifier::spokenName, chairside::Identifier::slipScan}})) ==
        ErrorCode::ruleConsent);
  for (const auto& line : must(clinic.session.board(clinic.day)))
    CHECK(line.child != jory);
}

TEST_CASE("Consent withdrawn in the chair keeps the finished teeth and stops the rest",
          "[case-2]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  clinic.screenFour(child);
  const auto right = must(clinic.session.isolate(clinic.by, clinic.field(child, {16, 46})));
  clinic.sealAll(right, {16});
  must(clinic.session.withdrawConsent(clinic.by, child, "mother came to the door"));
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(child, {26, 36}))) ==
        ErrorCode::ruleConsent);
  // What is already flowed may still be cured; what is not is stopped.
  must(clinic.session.stopTeeth(clinic.by, right, {dentition::toothAt(46)}, "consent withdrawn"));
  CHECK(codeOf(clinic.session.varnish(clinic.by, {child, clinic.day, clinic.varnish})) ==
        ErrorCode::ruleConsent);
  clinic.end(child, chairside::DayEnd::sealedUnfinished, "consent withdrawn after one tooth");
  const auto placements = must(clinic.session.placements(child));
  REQUIRE(placements.size() == 2);
  CHECK(placements[0].value.attempt == chairside::Attempt::complete);
  CHECK(placements[1].value.attempt == chairside::Attempt::stoppedBeforeSealant);
}

TEST_CASE("Consent withdrawn afterwards erases nothing and stops rechecks", "[case-3]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.standardVisit(child);
  must(clinic.session.withdrawConsent(clinic.by, child, "letter of 17 November"));
  CHECK(must(clinic.session.placements(child)).size() == 4);
  CHECK_FALSE(must(clinic.session.standing(child, roster::Service::recheckAndReplace,
                                           clinic.clock.now().date()))
                  .allows);
}

TEST_CASE("A clinician who goes on without consent is named and gives a reason") {
  test::Clinic clinic;
  const auto child = clinic.childWithoutForm("Nils", "Farrowgate");
  const auto today = clinic.clock.now().date();
  CHECK(codeOf(clinic.session.overrideConsent(clinic.by, {child, today, clinic.hygienist, ""})) ==
        ErrorCode::ruleReason);
  CHECK(codeOf(clinic.session.overrideConsent(
            clinic.by, {child, today, clinic.coordinator, "mother on the phone"})) ==
        ErrorCode::ruleCredential);
  must(clinic.session.overrideConsent(
      clinic.by, {child, today, clinic.hygienist, "mother said yes on the phone at 10:05"}));
  clinic.standardVisit(child);
  const auto records = must(clinic.session.dayRecords(clinic.day));
  REQUIRE(records.overrides.size() == 1);
  CHECK(records.overrides[0].value.clinician == clinic.hygienist);
  CHECK(must(clinic.session.identityCard(child, clinic.day)).sealants.allows);
  const auto totals = reports::termTotals(must(clinic.session.termRecords(clinic.term, today)));
  REQUIRE(totals.overrides.size() == 1);
  CHECK(totals.overrides[0].clinician == "Oriel Fenwhistle");
  CHECK(totals.overrides[0].reason == "mother said yes on the phone at 10:05");
  const auto text = reports::toText(reports::termTables(totals));
  CHECK(text.find("mother said yes on the phone at 10:05") != std::string::npos);
}

TEST_CASE("Children of one name carry an alert and are told apart", "[case-4]") {
  test::Clinic clinic;
  const auto one = clinic.child("Osei", "Brackwater");
  const auto other = clinic.child("Osei", "Brackwater");
  const auto lines = must(clinic.session.board(clinic.day));
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].sameName);
  CHECK(lines[1].sameName);
  CHECK(lines[0].number != lines[1].number);
  const auto card = must(clinic.session.identityCard(one, clinic.day));
  REQUIRE(card.sameNameOthers.size() == 1);
  CHECK(card.sameNameOthers[0].starts_with(must(clinic.session.child(other)).value.number));
  CHECK(card.guardianInitials == "RB");
}

TEST_CASE("Twins stay two children whatever else they share", "[case-5]") {
  test::Clinic clinic;
  const auto nell = clinic.child("Nell", "Farrowgate");
  const auto nils = clinic.childWithoutForm("Nils", "Farrowgate");
  CHECK(nell != nils);
  const auto today = clinic.clock.now().date();
  CHECK(must(clinic.session.standing(nell, roster::Service::screening, today)).allows);
  CHECK_FALSE(must(clinic.session.standing(nils, roster::Service::screening, today)).allows);
  CHECK(must(clinic.session.findChildren("farrowgate")).size() == 2);
}

TEST_CASE("The chart stays shut until two identifiers agree and the child spoke one", "[case-14]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  using chairside::Identifier;
  CHECK(codeOf(clinic.session.seat(clinic.by, {child, clinic.day, {Identifier::slipScan}})) ==
        ErrorCode::ruleIdentity);
  CHECK(codeOf(clinic.session.seat(
            clinic.by, {child, clinic.day, {Identifier::slipScan, Identifier::nameTag}})) ==
        ErrorCode::ruleIdentity);
  CHECK(codeOf(clinic.session.screen(clinic.by, clinic.fourSound(child))) ==
        ErrorCode::ruleIdentity);
}

TEST_CASE("The name used is shown and the legal name kept", "[case-16]") {
  test::Clinic clinic;
  const auto child = clinic.childWithoutForm("Theodora", "Finch");
  session::Identity identity{.first = "Theodora",
                             .last = "Finch",
                             .nameUsed = "Teddy",
                             .birth = must(base::Date::parse("2019-03-14"))};
  CHECK(identity.shownName() == "Teddy Finch");
  CHECK(identity.legalName() == "Theodora Finch");
  CHECK(must(clinic.session.identity(child)).legalName() == "Theodora Finch");
}

TEST_CASE("A child with one name or with accents is found and shown as written", "[case-17]") {
  test::Clinic clinic;
  const auto zoe = clinic.child("Zoë", "Núñez O’Brien");
  session::Identity one{.first = "Suharto", .birth = must(base::Date::parse("2019-03-14"))};
  roster::Child child{.number = roster::withCheckDigit("2001"),
                      .birth = {2019, 3},
                      .school = clinic.school,
                      .grade = "2",
                      .room = {},
                      .note = {}};
  must(clinic.session.enrollChild(clinic.by, child, one));
  const auto found = must(clinic.session.findChildren("obrien zoe"));
  REQUIRE(found.size() == 1);
  CHECK(found[0].child == zoe);
  CHECK(found[0].name == "Zoë Núñez O’Brien");
  CHECK(must(clinic.session.findChildren("suharto")).size() == 1);
}

TEST_CASE("A birth year that makes a second-grader 29 is refused", "[case-18]") {
  test::Clinic clinic;
  roster::Child child{.number = roster::withCheckDigit("2002"),
                      .birth = {2019, 3},
                      .school = clinic.school,
                      .grade = "2",
                      .room = {},
                      .note = {}};
  session::Identity sol{
      .first = "Sol", .last = "Hatherwick", .birth = must(base::Date::parse("1997-05-02"))};
  CHECK(codeOf(clinic.session.enrollChild(clinic.by, child, sol)) == ErrorCode::ruleBirthDate);
  sol.birth = must(base::Date::parse("2014-05-02"));
  CHECK(codeOf(clinic.session.enrollChild(clinic.by, child, sol)) == ErrorCode::ruleBirthDate);
  must(clinic.session.enrollChild(clinic.by, child, sol, session::Confirmed::yes));
}

TEST_CASE("A clock set back warns and never reorders the record", "[case-21]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  clinic.screenFour(child);
  const auto half = must(clinic.session.isolate(clinic.by, clinic.field(child, {16, 46})));
  must(clinic.session.enterStep(clinic.by, clinic.run(half, chairside::Step::etch, {16, 46}, 22)));
  CHECK(clinic.session.clockWarning().empty());
  clinic.clock.setWall(base::atLocal(must(base::Date::parse("2025-01-01")), std::chrono::minutes(0),
                                     std::chrono::minutes(-300)));
  CHECK_FALSE(clinic.session.clockWarning().empty());
  must(clinic.session.enterStep(clinic.by, clinic.run(half, chairside::Step::rinse, {16, 46}, 12)));
  must(clinic.session.enterStep(clinic.by, clinic.run(half, chairside::Step::dry, {16, 46})));
  const auto states = must(clinic.session.fields(child, clinic.day));
  CHECK(states.at(0).protocol.next() == chairside::Next::flow);
}

TEST_CASE("A clock far ahead is asked about before the first act", "[case-257]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  const auto act = [&] {
    return clinic.session.endVisit(clinic.by,
                                   {child, clinic.day, chairside::DayEnd::absent, {}, {}});
  };
  CHECK_FALSE(clinic.session.clockQuestion());
  for (const auto* date : {"2099-11-17", "2027-11-17"}) {
    clinic.clock.setWall(base::atLocal(must(base::Date::parse(date)), std::chrono::hours(9),
                                       std::chrono::minutes(-300)));
    REQUIRE(clinic.session.clockQuestion());
    CHECK(clinic.session.clockQuestion()->find("from November 17, 2026") != std::string::npos);
    CHECK(codeOf(act()) == ErrorCode::clockAhead);
    CHECK(must(clinic.session.dayRecords(clinic.day)).outcomes.empty());
  }
  clinic.session.confirmClock();
  CHECK_FALSE(clinic.session.clockQuestion());
  CHECK(act());
  // Confirmed once is not confirmed for good.
  clinic.clock.setWall(base::atLocal(must(base::Date::parse("2099-11-17")), std::chrono::hours(9),
                                     std::chrono::minutes(-300)));
  CHECK(codeOf(act()) == ErrorCode::clockAhead);
}

TEST_CASE("A holiday opens only with a reason and a future day not at all", "[case-22]") {
  test::Clinic clinic;
  roster::ClinicDay holiday{clinic.term, clinic.school, must(base::Date::parse("2026-11-11")), 1,
                            {},          false};
  CHECK(codeOf(clinic.session.openDay(clinic.by, holiday)) == ErrorCode::ruleDate);
  holiday.reason = "school opened for us";
  must(clinic.session.openDay(clinic.by, holiday));
  holiday.date = must(base::Date::parse("2026-11-18"));
  CHECK(codeOf(clinic.session.openDay(clinic.by, holiday)) == ErrorCode::ruleDate);
}

TEST_CASE("What is typed after midnight counts on the day of care", "[case-23]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.clock.advance(std::chrono::hours(16));
  clinic.standardVisit(child);
  const auto placement = must(clinic.session.placements(child)).at(0);
  CHECK(must(clinic.session.day(placement.value.day)).value.date.iso() == "2026-11-17");
  CHECK(placement.stamp.at.date().iso() == "2026-11-18");
}

TEST_CASE("A lot is caught on the day after its month ends", "[case-24]") {
  test::Clinic clinic;
  const auto old = must(clinic.session.enterLot(clinic.by, {kit::MaterialKind::sealantLightCure,
                                                            "Resin Fern",
                                                            "RF-2512",
                                                            must(base::parseExpiry("2026-10")),
                                                            base::Seconds(20),
                                                            {},
                                                            false,
                                                            {}}));
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  clinic.screenFour(child);
  auto field = clinic.field(child, {16, 46});
  field.sealant = old;
  CHECK(codeOf(clinic.session.isolate(clinic.by, field)) == ErrorCode::ruleMaterial);
}
