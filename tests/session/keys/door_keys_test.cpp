#include "reports/day/close_out.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using dentition::toothAt;
using test::codeOf;
using test::must;

// What the chair's keys may do is the session's to say.

namespace {

struct Metered : test::Clinic {
  Metered() { clock.advance(std::chrono::minutes(5)); }
  base::Result<kit::ReadingId> read(int value,
                                    session::Confirmed confirmed = session::Confirmed::no) {
    return session.enterReading(by, {light, clock.now().date(), {value}, true, "M-1", true},
                                confirmed);
  }
  base::Result<base::Done> cure(int seconds = 20) {
    const auto child = this->child("Mina");
    seat(child);
    screenFour(child);
    const auto right = must(session.isolate(by, field(child, {16})));
    etchToFlow(right, {16});
    const auto step = session.enterStep(by, run(right, chairside::Step::cure, {16}, seconds));
    if (!step) return step.error();
    return base::Done{};
  }
};

} // namespace

TEST_CASE("A meter reading that the light can hardly show is asked about", "[case-100]") {
  Metered clinic; // reads 1040 of 1080 this morning
  const auto asked = clinic.read(104);
  REQUIRE_FALSE(asked);
  CHECK(asked.error().code == ErrorCode::ruleLight);
  CHECK(asked.error().detail.find("can hardly read 104") != std::string::npos);
  CHECK(asked.error().detail.find("it read 1040") != std::string::npos);
  CHECK(codeOf(clinic.read(4900)) == ErrorCode::ruleLight);
  must(clinic.read(830)); // weak, and nothing odd
  must(clinic.read(104, session::Confirmed::yes));
  must(clinic.read(100)); // as the last one
  CHECK(must(clinic.session.readings(clinic.light)).size() == 4);
}

TEST_CASE("Of two readings of a day the newest that can be judged counts", "[case-100]") {
  {
    Metered clinic;
    must(clinic.read(104, session::Confirmed::yes));
    CHECK(codeOf(clinic.cure()) == ErrorCode::ruleLight);
  }
  {
    Metered clinic;
    must(clinic.read(104, session::Confirmed::yes));
    must(clinic.read(1040)); // read again
    must(clinic.cure());
  }
  {
    Metered clinic;
    must(clinic.read(104, session::Confirmed::yes));
    // Another meter says nothing of the light's own baseline: it stays red.
    must(clinic.session.enterReading(
        clinic.by, {clinic.light, clinic.clock.now().date(), {1040}, true, "M-9", true}));
    CHECK(codeOf(clinic.cure()) == ErrorCode::ruleLight);
  }
}

TEST_CASE("Care has one date, the open day's", "[case-101]") {
  test::Clinic clinic;
  CHECK(must(clinic.session.careDate()).iso() == "2026-11-17");
  clinic.clock.advance(std::chrono::hours(24));
  CHECK(must(clinic.session.careDate()).iso() == "2026-11-17");
  must(clinic.session.cancelDay(clinic.by, clinic.day, "snow"));
  CHECK(must(clinic.session.careDate()).iso() == "2026-11-18");
}

TEST_CASE("A medical stop is decided once, in words, by a clinician who may", "[case-104]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  must(clinic.session.enterFlag(clinic.by, {child, roster::FlagKind::acrylateAllergy,
                                            roster::FlagAction::stop, "swelling", false, ""}));
  const auto flag = must(clinic.session.flags(child)).front();
  for (const char* blank : {"", "  "})
    CHECK(codeOf(clinic.session.resolveFlag(clinic.by, flag, blank)) == ErrorCode::ruleReason);
  CHECK(codeOf(clinic.session.resolveFlag({}, flag, "no resin")) == ErrorCode::ruleCredential);
  for (const auto member : {clinic.assistant, clinic.coordinator})
    CHECK(codeOf(clinic.session.resolveFlag({member, {}}, flag, "no resin")) ==
          ErrorCode::ruleCredential);
  CHECK_FALSE(must(clinic.session.flags(child)).front().value.resolved);
  must(clinic.session.resolveFlag(clinic.by, flag, "mother by phone: it was a bee"));
  CHECK(must(clinic.session.flags(child)).front().value.resolved);
  CHECK(codeOf(clinic.session.resolveFlag(clinic.by, flag, "again")) == ErrorCode::ruleReason);
}

TEST_CASE("After the day is signed its sealants move no more, but for a child seen again",
          "[case-102]") {
  test::Clinic clinic;
  const auto wren = clinic.child("Wren", "Castlebury");
  clinic.standardVisit(wren);
  const auto placed = must(clinic.session.placements(wren)).front();
  CHECK(codeOf(clinic.session.correctTooth(clinic.by, placed, toothAt(17), "  ")) ==
        ErrorCode::ruleReason);
  must(clinic.session.correctTooth(clinic.by, placed, toothAt(17), "seen at the read-back"));
  auto old = placed;
  for (const auto& row : must(clinic.session.placements(wren)))
    if (row.id == placed.id) old = row;
  CHECK(old.value.tooth == toothAt(17));
  const auto sheet =
      reports::closeOut(must(clinic.session.dayRecords(clinic.day)), must(clinic.session.names()));
  // What is left to say is that the tooth it was meant for was not sealed, and why.
  REQUIRE(sheet.blockers.size() == 1);
  CHECK(sheet.blockers[0].kind == reports::BlockerKind::toothWithoutReason);
  const auto screening = must(clinic.session.screenings(wren)).front();
  auto said = screening.value;
  for (auto& finding : said.teeth)
    if (finding.tooth == placed.value.tooth) {
      finding.decision = chairside::Decision::notToday;
      finding.toSeal = {};
    }
  must(clinic.session.correctScreening(clinic.by, screening, said, "the neighbor was sealed"));
  must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
  CHECK(codeOf(clinic.session.correctTooth(clinic.by, old, placed.value.tooth, "after all")) ==
        ErrorCode::ruleDayOpen);
}
