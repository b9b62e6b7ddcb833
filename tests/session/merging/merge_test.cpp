#include "reports/records/inputs.h"
#include "session/second_laptop.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::enrollAda;
using test::must;
using test::seatOn;
using test::Second;
using test::seenTwice;
using test::sheetOf;

namespace {

std::size_t everySeating(session::Session& session, roster::DayId day) {
  return must(session.dayRecords(day)).seatings.size();
}

} // namespace

TEST_CASE("Two laptops' records become one and merging twice changes nothing", "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  must(second.session.seat(
      clinic.by,
      {wren, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  const auto late = must(second.session.enrollChild(
      clinic.by,
      {.number = roster::withCheckDigit("4001"),
       .birth = {2019, 3},
       .school = clinic.school,
       .grade = "2",
       .room = {},
       .note = {}},
      {.first = "Ada", .last = "Quill", .birth = must(base::Date::parse("2019-03-14"))}));
  CHECK(must(clinic.session.absorb(second.handOver())).newEntries == 3);
  CHECK(everySeating(clinic.session, clinic.day) == 2);
  CHECK(must(clinic.session.identity(late)).shownName() == "Ada Quill");
  CHECK(must(clinic.session.absorb(second.handOver())).newEntries == 0);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("The same tooth sealed on both laptops is kept twice and never overwritten",
          "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  must(second.session.seat(
      clinic.by,
      {mina, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  must(second.session.screen(clinic.by, clinic.fourSound(mina)));
  must(clinic.session.absorb(second.handOver()));
  CHECK(must(clinic.session.screenings(mina)).size() == 2);
}

TEST_CASE("Merging in either order gives the same records") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  Second a(clinic, "a.gkbook", 2);
  Second b(clinic, "b.gkbook", 3);
  const auto seat = [&](session::Session& session, roster::ChildId child) {
    must(session.seat(clinic.by,
                      {child,
                       clinic.day,
                       {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
  };
  seat(a.session, mina);
  seat(b.session, wren);
  const auto forA = b.handOver();
  const auto forB = a.handOver();
  must(a.session.absorb(forA));
  must(b.session.absorb(forB));
  const auto left = must(a.session.dayRecords(clinic.day));
  const auto right = must(b.session.dayRecords(clinic.day));
  REQUIRE(left.seatings.size() == right.seatings.size());
  for (std::size_t i = 0; i < left.seatings.size(); ++i)
    CHECK(left.seatings[i].stamp == right.seatings[i].stamp);
}

TEST_CASE("Another program's book is not merged") {
  test::Clinic clinic;
  {
    base::SeededRandom random(99);
    must(session::Session::create(*clinic.folder / "stranger.gkbook", test::Clinic::passphrase,
                                  clinic.laptop, {clinic.clock, random},
                                  must(clinic.session.program()).value,
                                  session::BookKind::throwaway));
  }
  const auto merged = clinic.session.absorb(*clinic.folder / "stranger.gkbook");
  REQUIRE_FALSE(merged.has_value());
  CHECK(merged.error().code == ErrorCode::storeNotALogbook);
}

TEST_CASE("Two laptops' visits of one child are a question until a person says which is kept",
          "[case-65]") {
  test::Clinic clinic;
  const auto mina = seenTwice(clinic);
  const auto asked = sheetOf(clinic);
  REQUIRE(asked.questions.size() == 1);
  const auto& question = asked.questions.front();
  CHECK(question.child == mina);
  CHECK(question.what == "screened on both");
  REQUIRE(question.sides.size() == 2);
  CHECK(question.sides[0].words ==
        "9:00 AM OF: screened, 4 teeth sealed, varnish, sealed, complete");
  CHECK(question.sides[1].words == "9:05 AM OF: screened");
  CHECK_FALSE(asked.mayClose());
  const auto signing =
      clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator});
  CHECK(test::codeOf(signing) == ErrorCode::ruleDayOpen);

  must(clinic.session.answerMerge(clinic.by, {.day = clinic.day,
                                              .child = mina,
                                              .kept = question.sides[0].laptop,
                                              .verdict = followup::MergeVerdict::keptOne}));
  const auto answered = sheetOf(clinic);
  CHECK(answered.questions.empty());
  CHECK(answered.mayClose());
  CHECK(must(clinic.session.screenings(mina)).size() == 1);
  CHECK(answered.counts.firstMolars == 4);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("Keeping the second visit takes back the sealants of the first", "[case-65]") {
  test::Clinic clinic;
  const auto mina = seenTwice(clinic);
  const auto question = sheetOf(clinic).questions.front();
  must(clinic.session.answerMerge(clinic.by, {.day = clinic.day,
                                              .child = mina,
                                              .kept = question.sides[1].laptop,
                                              .verdict = followup::MergeVerdict::keptOne}));
  const auto sheet = sheetOf(clinic);
  CHECK(sheet.questions.empty());
  CHECK(sheet.counts.firstMolars == 0);
  CHECK(must(clinic.session.dayRecords(clinic.day)).fields.empty());
  CHECK_FALSE(sheet.mayClose()); // the visit that is kept has no outcome yet
}

TEST_CASE("Both visits may stand with a note and the question is not asked again", "[case-65]") {
  test::Clinic clinic;
  const auto mina = seenTwice(clinic);
  must(clinic.session.answerMerge(
      clinic.by, {.day = clinic.day, .child = mina, .note = "came back after lunch"}));
  const auto sheet = sheetOf(clinic);
  CHECK(sheet.questions.empty());
  CHECK(sheet.mayClose());
  CHECK(must(clinic.session.screenings(mina)).size() == 2);
  const auto answers = must(clinic.session.dayRecords(clinic.day)).mergeAnswers;
  REQUIRE(answers.size() == 1);
  CHECK(answers.front().value.note == "came back after lunch");
  CHECK(answers.front().stamp.by.author == clinic.hygienist);
}

TEST_CASE("The same tooth sealed on both laptops is said to be one written twice", "[case-65]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  Second second(clinic, "second.gkbook", 2);
  clinic.standardVisit(mina);
  seatOn(second.session, clinic, mina);
  must(second.session.screen(clinic.by, clinic.fourSound(mina)));
  const auto field = must(second.session.isolate(clinic.by, clinic.field(mina, {16})));
  for (const auto& [step, seconds] : {std::pair(chairside::Step::etch, 22),
                                      {chairside::Step::rinse, 12},
                                      {chairside::Step::dry, 0},
                                      {chairside::Step::flow, 0},
                                      {chairside::Step::cure, 20},
                                      {chairside::Step::check, 0}})
    must(second.session.enterStep(clinic.by, clinic.run(field, step, {16}, seconds)));
  must(clinic.session.absorb(second.handOver()));
  const auto sheet = sheetOf(clinic);
  REQUIRE(sheet.questions.size() == 1);
  CHECK(sheet.questions.front().what ==
        "screened on both; upper right first molar, 3 sealed on both, almost "
        "certainly one sealant recorded twice");
  CHECK(sheet.counts.firstMolars == 4); // a tooth is one tooth, whatever is answered
}

TEST_CASE("A visit begun on one laptop and finished on the other is no question") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  clinic.seat(mina);
  clinic.screenFour(mina);
  Second second(clinic, "second.gkbook", 2);
  seatOn(second.session, clinic, mina);
  must(clinic.session.absorb(second.handOver()));
  CHECK(sheetOf(clinic).questions.empty());
}

TEST_CASE("Two cards of one child made apart become one when a person says so", "[case-65]") {
  test::Clinic clinic;
  Second second(clinic, "second.gkbook", 2);
  const auto here = enrollAda(clinic.session, clinic, "4001");
  const auto there = enrollAda(second.session, clinic, "4002");
  seatOn(second.session, clinic, there);
  must(clinic.session.absorb(second.handOver()));
  const auto asked = sheetOf(clinic);
  REQUIRE(asked.questions.size() == 1);
  CHECK(asked.questions.front().what == "two cards of one name and month of birth");

  SECTION("one child") {
    must(clinic.session.answerMerge(clinic.by, {.day = clinic.day,
                                                .child = here,
                                                .other = there,
                                                .verdict = followup::MergeVerdict::keptOne}));
    CHECK(sheetOf(clinic).questions.empty());
    CHECK(test::codeOf(clinic.session.child(there)) == ErrorCode::notFound);
    const auto records = must(clinic.session.dayRecords(clinic.day));
    REQUIRE(records.seatings.size() == 1);
    CHECK(records.seatings.front().value.child == here);
    CHECK(must(clinic.session.consents(here)).size() == 2);
    CHECK(must(clinic.session.findChildren("Quill")).size() == 1);
    CHECK(must(clinic.session.findings()).empty());
  }
  SECTION("two children") {
    must(clinic.session.answerMerge(clinic.by, {.day = clinic.day, .child = here, .other = there}));
    CHECK(sheetOf(clinic).questions.empty());
    CHECK(must(clinic.session.findChildren("Quill")).size() == 2);
  }
}

TEST_CASE("One number on two laptops' new cards is a question also while names are locked",
          "[case-65]") {
  test::Clinic clinic;
  Second second(clinic, "second.gkbook", 2);
  enrollAda(clinic.session, clinic, "4001");
  enrollAda(second.session, clinic, "4001");
  must(clinic.session.absorb(second.handOver()));
  clinic.session.lock();
  const auto sheet = reports::closeOut(must(clinic.session.dayRecords(clinic.day)));
  REQUIRE(sheet.questions.size() == 1);
  CHECK(sheet.questions.front().what == "one number on two students' cards");
}

TEST_CASE("On the chair's laptop missing findings are not received, and a stick brings them",
          "[case-66]") {
  test::Clinic screener;
  const auto mina = screener.child("Mina");
  Second chair(screener, "chair.gkbook", 2);
  screener.seat(mina);
  screener.screenFour(mina);
  const auto findings = [&](session::Session& session) {
    return must(session.identityCard(mina, screener.day)).findings;
  };
  CHECK(findings(screener.session) == "received, 4 teeth to treat");
  CHECK(findings(chair.session) == "not received");
  CHECK(codeOf(chair.session.isolate(screener.by, screener.field(mina, {16, 46}))) ==
        ErrorCode::ruleIdentity);
  const auto stick = *screener.folder / "stick.gkbook";
  must(screener.session.backUp(stick));
  must(chair.session.absorb(stick));
  CHECK(findings(chair.session) == "received, 4 teeth to treat");
  must(chair.session.isolate(screener.by, screener.field(mina, {16, 46})));
}
