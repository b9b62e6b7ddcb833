#include "session/second_laptop.h"

// What was withdrawn, begun, handed out or recorded elsewhere meanwhile is asked about by the
// session, whichever window is open.
using namespace gk;
using base::ErrorCode;
using base::Station;
using chairside::DayEnd;
using chairside::Step;
using session::UndoAt;
using test::codeOf;
using test::must;

namespace {

struct CareDay : test::Clinic {
  roster::ChildId mina = child("Mina");
  [[nodiscard]] UndoAt board() const { return {Station::board, day, {}}; }
  [[nodiscard]] UndoAt chair() const { return {Station::chair, day, mina}; }
  [[nodiscard]] base::By atBoard() const { return {hygienist, assistant, Station::board}; }
  chairside::FieldId inHand(std::vector<int> teeth) {
    seat(mina);
    screenFour(mina);
    return must(session.isolate(by, field(mina, std::move(teeth))));
  }
  chairside::TimerStart etchClock(chairside::FieldId field, std::vector<int> teeth) {
    return {
        field, Step::etch, run(field, Step::etch, std::move(teeth)).teeth, base::Seconds(20), {}};
  }
};

} // namespace

TEST_CASE("A consent withdrawn meanwhile stops the etch that is not begun, and what is on is ended",
          "[case-143]") {
  CareDay clinic;
  const auto field = clinic.inHand({16, 46});
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::etch, {16}, 22)));
  must(clinic.session.withdrawConsent(clinic.atBoard(), clinic.mina, "mother, by phone"));
  CHECK(codeOf(clinic.session.startTimer(clinic.by, clinic.etchClock(field, {46}))) ==
        ErrorCode::ruleConsent);
  CHECK(codeOf(clinic.session.enterStep(clinic.by, clinic.run(field, Step::etch, {46}, 22))) ==
        ErrorCode::ruleConsent);
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::rinse, {16}, 12)));
  must(clinic.session.stopTeeth(clinic.by, field, {dentition::toothAt(16), dentition::toothAt(46)},
                                "consent withdrawn"));
}

TEST_CASE("Sealant that is on is cured and checked whatever was withdrawn", "[case-143]") {
  CareDay clinic;
  const auto field = clinic.inHand({16});
  clinic.etchToFlow(field, {16});
  must(clinic.session.withdrawConsent(clinic.atBoard(), clinic.mina, "mother, by phone"));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::cure, {16}, 20)));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::check, {16})));
}

TEST_CASE("A glass ionomer is not begun on a withdrawn consent either", "[case-143]") {
  CareDay clinic;
  clinic.seat(clinic.mina);
  clinic.screenFour(clinic.mina);
  auto isolated = clinic.field(clinic.mina, {16});
  isolated.sealant = clinic.ionomer;
  isolated.etchant.reset();
  const auto field = must(clinic.session.isolate(clinic.by, isolated));
  must(clinic.session.withdrawConsent(clinic.atBoard(), clinic.mina, "mother, by phone"));
  auto dry = clinic.run(field, Step::dry, {16});
  dry.result = chairside::StepResult::done;
  CHECK(codeOf(clinic.session.enterStep(clinic.by, dry)) == ErrorCode::ruleConsent);
}

TEST_CASE("Etchant is on from the start of its clock: no one is stopped before it is rinsed",
          "[case-144]") {
  CareDay clinic;
  const auto field = clinic.inHand({16});
  must(clinic.session.startTimer(clinic.by, clinic.etchClock(field, {16})));
  CHECK(codeOf(clinic.session.stopTeeth(clinic.by, field, {dentition::toothAt(16)}, "unwell")) ==
        ErrorCode::ruleStep);
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::rinse, {16}, 12)));
  must(clinic.session.stopTeeth(clinic.by, field, {dentition::toothAt(16)}, "unwell"));
}

TEST_CASE("A tooth is in one field at a time and sealed once a visit", "[case-145]") {
  CareDay clinic;
  const auto field = clinic.inHand({16});
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(clinic.mina, {16, 46}))) ==
        ErrorCode::ruleTooth);
  clinic.sealAll(field, {16});
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(clinic.mina, {16}))) ==
        ErrorCode::ruleTooth);
  auto more = clinic.field(clinic.mina, {16});
  more.adding = true;
  must(clinic.session.isolate(clinic.by, more));
}

TEST_CASE("A form is not undone from under care, nor a lot that was set aside flowed",
          "[case-146]") {
  test::Clinic clinic;
  const auto mina = clinic.childWithoutForm("Mina");
  must(clinic.session.enterConsent({clinic.hygienist, {}, Station::board}, clinic.form(mina)));
  clinic.seat(mina);
  CHECK(codeOf(clinic.session.undo(clinic.by, {Station::board, clinic.day, {}})) ==
        ErrorCode::notFound);
  CHECK(must(clinic.session.consents(mina)).size() == 1);
  clinic.screenFour(mina);
  const auto field = must(clinic.session.isolate(clinic.by, clinic.field(mina, {16})));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::etch, {16}, 22)));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::rinse, {16}, 12)));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, Step::dry, {16})));
  must(clinic.session.quarantineLot(clinic.by, clinic.resin, "recalled"));
  CHECK(codeOf(clinic.session.enterStep(clinic.by, clinic.run(field, Step::flow, {16}))) ==
        ErrorCode::ruleMaterial);
}

TEST_CASE("Redo does not say again what the child was recorded past meanwhile", "[case-147]") {
  CareDay clinic;
  must(clinic.session.endVisit(clinic.atBoard(), {clinic.mina, clinic.day, DayEnd::absent, {}}));
  must(clinic.session.undo(clinic.by, clinic.board()));
  clinic.standardVisit(clinic.mina);
  CHECK(codeOf(clinic.session.redo(clinic.by, clinic.board())) == ErrorCode::notFound);
  CHECK(must(clinic.session.place(clinic.mina, clinic.day)) == session::Place::done);
}

TEST_CASE("Undo at the chair is of a child, and a day canceled by a wrong key comes back",
          "[case-147]") {
  CareDay clinic;
  clinic.seat(clinic.mina);
  CHECK(codeOf(clinic.session.undo(clinic.by, {Station::chair, clinic.day, {}})) ==
        ErrorCode::notFound);
  must(clinic.session.undo(clinic.by, clinic.chair()));
  must(clinic.session.cancelDay({clinic.hygienist, {}}, clinic.day, "snow"));
  must(clinic.session.undo(clinic.by, {Station::board, {}, {}}));
  CHECK_FALSE(must(clinic.session.day(clinic.day)).value.canceled);
}

TEST_CASE("Undo does not cross what the other laptop handed out or went on from", "[case-148]") {
  CareDay clinic;
  clinic.inHand({16});
  test::Second other(clinic, "other.gkbook", 9);
  SECTION("it went on with the child") {
    clinic.clock.advance(std::chrono::minutes(1));
    must(other.session.isolate(clinic.by, clinic.field(clinic.mina, {26})));
  }
  SECTION("it made a backup") {
    clinic.clock.advance(std::chrono::minutes(1));
    must(other.session.noteBackup(clinic.by, {clinic.day, "copy.gkbook"}));
  }
  must(clinic.session.absorb(other.handOver()));
  CHECK(codeOf(clinic.session.undo(clinic.by, clinic.chair(), "wrong tooth")) ==
        ErrorCode::notFound);
  CHECK_FALSE(must(clinic.session.fields(clinic.mina, clinic.day)).empty());
}

TEST_CASE("A correction is of the row that it names, whatever it says the row is of",
          "[case-133]") {
  CareDay clinic;
  const auto osei = clinic.child("Osei");
  clinic.inHand({16});
  clinic.seat(osei);
  clinic.screenFour(osei);
  auto old = must(clinic.session.screenings(clinic.mina)).front();
  old.id = must(clinic.session.screenings(osei)).front().id;
  CHECK(codeOf(clinic.session.correctScreening(clinic.by, old, old.value, "crossed")) ==
        ErrorCode::recordChanged);
}

TEST_CASE("No one signs while the names are locked, since two cards of one name are looked for",
          "[case-149]") {
  CareDay clinic;
  clinic.end(clinic.mina, DayEnd::absent);
  const roster::DayClosure closure{clinic.day, clinic.hygienist, clinic.coordinator};
  clinic.session.lock();
  CHECK(codeOf(clinic.session.signDay({clinic.hygienist, {}}, closure)) == ErrorCode::vaultLocked);
  must(clinic.session.unlock(test::Clinic::passphrase));
  must(clinic.session.signDay({clinic.hygienist, {}}, closure));
}
