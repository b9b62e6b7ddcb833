#include "reports/records/inputs.h"
#include "ui/fixtures/chair_fixture.h"

// One key at the chair is one act of the book, and what was set for one child ends with her.

using namespace gk;
using namespace Qt::Literals::StringLiterals;
using chairside::Attempt;
using chairside::EtchReason;
using chairside::Next;
using chairside::Step;
using chairside::StepResult;
using test::must;

namespace {

/// A child with four first molars to seal, up to the first half.
struct Acts : test::Chair {
  roster::ChildId child = clinic.child("Teodor", "Finch-Abbey");

  void begin() {
    seat(child);
    screenFour();
    press(Qt::Key_Return);
  }
  Next next(int iso) {
    for (const auto& field : must(clinic.session.fields(child, clinic.day)))
      if (const auto* tooth = field.protocol.find(dentition::toothAt(iso))) return tooth->next;
    FAIL("no such tooth");
    return Next::stopped;
  }
  std::vector<chairside::StepRun> steps() {
    std::vector<chairside::StepRun> runs;
    for (const auto& run : must(clinic.session.dayRecords(clinic.day)).steps)
      runs.push_back(run.value);
    return runs;
  }
  /// The newest field is of the child in the chair.
  chairside::Field lastField(roster::ChildId of) {
    return must(clinic.session.fields(of, clinic.day)).back().field.value;
  }
};

} // namespace

TEST_CASE("Two reasons of one etch are written and taken back with one key", "[case-88]") {
  Acts chair;
  chair.begin();
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  chair.run(10);
  const auto before = chair.steps().size();
  chair.press("42"); // the upper one is dull and the lower one is not: one answer
  REQUIRE(chair.steps().size() == before + 2);
  chair.press("U");
  CHECK(chair.steps().size() == before);
  CHECK(chair.next(16) == Next::dry);
  CHECK(chair.next(46) == Next::dry);
  chair.press("42W2"); // and the lower one is wet
  REQUIRE(chair.next(46) == Next::etch);
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space); // the etch ends for both, and the rinse clock runs
  CHECK(chair.page->isTiming());
  CHECK(chair.next(16) == Next::rinse);
  chair.run(10);
  const auto steps = chair.steps();
  REQUIRE(steps.size() == before + 5);
  CHECK(steps[before + 2].etchReason != steps[before + 3].etchReason);
  chair.press("U"); // the rinse
  chair.press("U"); // the etch of both
  CHECK(chair.steps().size() == before + 2);
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.next(46) == Next::etch);
}

TEST_CASE("The rinse has its own clock, which ends by itself, and is short only with a reason",
          "[case-93]") {
  Acts chair;
  chair.begin();
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  CHECK(chair.text("fieldTitle").startsWith(u"Rinse"_s));
  chair.run(4);
  chair.press("5");
  CHECK(chair.text("askQuestion").startsWith(u"Rinse under minimum"_s));
  chair.press("1"); // still rinsing
  CHECK(chair.page->isTiming());
  SECTION("it goes on") {
    chair.run(6);
    CHECK_FALSE(chair.page->isTiming());
    chair.press("5");
    REQUIRE(chair.next(16) == Next::flow);
    CHECK(chair.steps()[1].result == StepResult::done);
    CHECK(chair.steps()[1].lasted == base::Seconds(10));
  }
  SECTION("it is taken short") {
    chair.press("52");
    chair.type(u"gagging"_s);
    REQUIRE(chair.next(16) == Next::flow);
    CHECK(chair.steps()[1].result == StepResult::shortAccepted);
    CHECK(chair.steps()[1].reason == "gagging");
  }
}

TEST_CASE("An etch that is too long is cautioned and asked about after the rinse", "[case-93]") {
  Acts chair;
  chair.begin();
  const auto note = [&] { return chair.page->findChild<ui::TimerView*>()->note(); };
  chair.press(Qt::Key_Space);
  chair.run(29);
  CHECK(note().isEmpty());
  chair.run(2);
  CHECK(note().startsWith(u"PAST 30 s"_s));
  chair.run(31);
  CHECK(note().startsWith(u"PAST 60 s"_s));
  chair.press(Qt::Key_Space);
  chair.run(10);
  chair.press("5");
  CHECK(chair.text("askQuestion").contains(u"more than 60 s"_s));
  chair.type(u"the suction fell out"_s);
  CHECK(chair.next(16) == Next::flow);
  CHECK(chair.steps().back().reason == "the suction fell out");
}

TEST_CASE("A child who refuses with etchant on is rinsed first", "[case-93]") {
  Acts chair;
  chair.begin();
  chair.press(Qt::Key_Space);
  chair.run(8);
  chair.press("X1");
  CHECK(chair.text("askQuestion").startsWith(u"RINSE NOW"_s));
  CHECK(chair.page->isTiming());
  chair.run(12); // the clock does not say "rinsed" by itself meanwhile
  CHECK(chair.page->isTiming());
  chair.press("1");
  REQUIRE(chair.shows("finishPanel"));
  const auto steps = chair.steps();
  REQUIRE(steps.size() == 2);
  CHECK(steps[0].result == StepResult::interrupted); // no one's override is asked for to rinse
  CHECK(steps[0].lasted == base::Seconds(8));
  CHECK(steps[1].step == Step::rinse);
  CHECK(steps[1].result == StepResult::done);
  const auto placements = must(chair.clinic.session.placements(chair.child));
  REQUIRE(placements.size() == 2);
  CHECK(placements[0].value.attempt == Attempt::stoppedBeforeSealant);
  chair.press("U"); // rinse, stops and findings were one act
  CHECK(must(chair.clinic.session.placements(chair.child)).empty());
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.steps().size() == 1); // and the etchant is on still
}

TEST_CASE("The pedal that puts the sealant on and lights the lamp is one act", "[case-88]") {
  Acts chair;
  chair.begin();
  chair.etchToFrosty();
  chair.press("T"); // seconds by another clock: the sealant is on with the same answer
  chair.press(Qt::Key_Escape);
  CHECK(chair.next(16) == Next::flow); // nothing was written
  chair.press("T");
  chair.type(u"20"_s);
  CHECK(chair.next(16) == Next::cure);
  CHECK(chair.steps().back().source == chairside::TimeSource::typed);
  chair.press("U");
  chair.type(u"a slip"_s);
  CHECK(chair.next(16) == Next::flow);
  CHECK(chair.next(46) == Next::flow);
}

TEST_CASE("How one child is kept dry is not how the next one is", "[case-96]") {
  Acts chair;
  chair.seat(chair.child);
  chair.screenFour();
  chair.press("M5"); // rubber dam
  CHECK(chair.text("fieldKit").contains(u"FOR THIS CHILD: rubber dam"_s));
  chair.press("R");
  CHECK(chair.text("fieldKit").contains(u"two-handed"_s));
  chair.press(Qt::Key_Return);
  CHECK(chair.lastField(chair.child).isolation == chairside::Isolation::rubberDam);
  CHECK_FALSE(chair.lastField(chair.child).fourHanded);
  chair.etchToFrosty();
  chair.press("B");
  CHECK(chair.text("fieldGuide").isEmpty() == false);
  chair.press("P");
  const auto wren = chair.clinic.child("Wren");
  chair.seat(wren);
  chair.screenFour();
  CHECK_FALSE(chair.text("fieldKit").contains(u"rubber dam"_s));
  chair.press(Qt::Key_Return);
  CHECK(chair.lastField(wren).isolation == chairside::Isolation::rollsWithHolders);
  CHECK(chair.lastField(wren).fourHanded);
  chair.etchToFrosty();
  chair.cure();
  CHECK_FALSE(chair.text("fieldGuide").contains(u"BOTH SURFACES"_s));
}

TEST_CASE("No assistant means two-handed", "[case-96]") {
  Acts chair;
  auto setup = chair.acting.now();
  setup.assistant.reset();
  chair.acting.change(setup);
  chair.seat(chair.child);
  chair.screenFour();
  CHECK(chair.text("fieldKit").contains(u"two-handed"_s));
  chair.press("R");
  CHECK(chair.message().contains(u"No assistant"_s));
  chair.press(Qt::Key_Return);
  CHECK_FALSE(chair.lastField(chair.child).fourHanded);
}

TEST_CASE("What changed since the form is said at the seat and forbids from there on",
          "[case-94]") {
  Acts chair;
  REQUIRE(chair.page->take(chair.child, chair.clinic.day));
  chair.press(Qt::Key_PageUp);
  chair.press(Qt::Key_Return); // the first: an allergy to resin
  chair.type(u"her mother by phone"_s);
  CHECK(must(chair.clinic.session.flags(chair.child)).empty()); // not before she is seated
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("screeningPanel"));
  CHECK(chair.text("chairStop") == u"ALLERGY: acrylate, her mother by phone"_s);
  const auto seatings = must(chair.clinic.session.dayRecords(chair.clinic.day)).seatings;
  REQUIRE(seatings.size() == 1);
  CHECK_FALSE(seatings[0].value.historyUnchanged);
  CHECK(seatings[0].value.heard.size() == 1);
}

TEST_CASE("The cleaning is said with the isolation and may be another for these teeth",
          "[case-95]") {
  Acts chair;
  chair.seat(chair.child);
  chair.screenFour();
  CHECK(chair.text("fieldGuide").startsWith(u"Cleaned (dry toothbrush)?"_s));
  chair.press("B5"); // not cleaned
  chair.type(u"gums bleed"_s);
  chair.press(Qt::Key_Return);
  CHECK(chair.lastField(chair.child).cleaned == chairside::Cleaning::notCleaned);
  CHECK(chair.lastField(chair.child).note == "not cleaned: gums bleed");
}

TEST_CASE("Wiping, bite and a varnish left out are on record at the end", "[case-95]") {
  Acts chair;
  chair.begin();
  chair.etchToFrosty();
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("55");
  chair.sealHalf();
  REQUIRE(chair.shows("finishPanel"));
  chair.press(Qt::Key_Return);
  CHECK(chair.page->isOccupied()); // nothing is said of wiping and bite
  chair.press("6");
  CHECK(chair.text("finishState").contains(u"Bite: adjusted with handpiece"_s));
  chair.press(Qt::Key_Return);
  chair.press("2");
  CHECK_FALSE(chair.page->isOccupied());
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  REQUIRE(records.outcomes.size() == 1);
  CHECK(records.outcomes[0].value.varnishSkipped == "had varnish recently");
}
