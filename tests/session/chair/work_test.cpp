#include "reports/records/inputs.h"
#include "support/clinic.h"

// What one key does at the chair is one act: all of it is written, or nothing is.
using namespace gk;
using base::ErrorCode;
using chairside::Step;
using chairside::StepResult;
using dentition::toothAt;
using test::codeOf;
using test::must;

namespace {

struct AtWork {
  test::Clinic clinic;
  roster::ChildId child = clinic.child("Mina");
  chairside::FieldId field;

  AtWork() : field(begin()) {}

  chairside::FieldId begin() {
    clinic.seat(child);
    clinic.screenFour(child);
    return must(clinic.session.isolate(clinic.by, clinic.field(child, {16, 46})));
  }
  base::Result<session::Worked> work(const session::ChairWork& work) {
    return clinic.session.work(clinic.by, work);
  }
  chairside::StepRun run(Step step, std::vector<int> teeth, int seconds = 0) {
    return clinic.run(field, step, std::move(teeth), seconds);
  }
  chairside::Wet wet(std::vector<dentition::Tooth> teeth) {
    return {
        field, std::move(teeth), chairside::WetStage::afterEtch, chairside::WetCause::saliva, {}};
  }
  chairside::Next next(int iso) {
    const auto states = must(clinic.session.fields(child, clinic.day));
    return states.front().protocol.find(toothAt(iso))->next;
  }
  std::string undo(const std::string& why = {}) {
    return must(clinic.session.undo(clinic.by, {base::Station::chair, clinic.day, child}, why));
  }
};

} // namespace

TEST_CASE("Frosty for one tooth and not for the other is one act and one undo", "[case-88]") {
  AtWork chair;
  must(chair.work({.steps = {chair.run(Step::etch, {16, 46}, 22)}}));
  auto dull = chair.run(Step::dry, {46});
  dull.result = StepResult::notFrosty;
  const auto made = must(chair.work(
      {.steps = {chair.run(Step::rinse, {16, 46}, 12), chair.run(Step::dry, {16}), dull}}));
  CHECK(made.steps.size() == 3);
  CHECK(chair.next(16) == chairside::Next::flow);
  CHECK(chair.next(46) == chairside::Next::etch);
  chair.undo();
  CHECK(chair.next(16) == chairside::Next::rinse);
  CHECK(chair.next(46) == chairside::Next::rinse);
}

TEST_CASE("Where one row of a key is refused nothing of it is written", "[case-88]") {
  AtWork chair;
  const auto etch = chair.run(Step::etch, {16, 46}, 22);
  CHECK(codeOf(chair.work({.steps = {etch, chair.run(Step::rinse, {16, 46}, 4)}})) ==
        ErrorCode::ruleStep);
  CHECK(chair.next(16) == chairside::Next::etch);
  CHECK(codeOf(chair.work({.steps = {etch}, .wets = {chair.wet({toothAt(26)})}})) ==
        ErrorCode::ruleTooth);
  CHECK(chair.next(16) == chairside::Next::etch);
  must(chair.work(
      {.steps = {etch, chair.run(Step::rinse, {16, 46}, 12)}, .wets = {chair.wet({toothAt(46)})}}));
  CHECK(chair.next(16) == chairside::Next::dry);
  CHECK(chair.next(46) == chairside::Next::etch);
}

TEST_CASE("A sealant that is on and the clock of its cure are one act", "[case-88]") {
  AtWork chair;
  must(chair.work(
      {.steps = {chair.run(Step::etch, {16, 46}, 22), chair.run(Step::rinse, {16, 46}, 12),
                 chair.run(Step::dry, {16, 46})}}));
  const auto cure = chair.run(Step::cure, {16});
  const chairside::TimerStart early{chair.field, Step::cure, cure.teeth, base::Seconds(1),
                                    chair.clinic.light};
  CHECK(codeOf(chair.work({.timer = early})) == ErrorCode::ruleStep); // nothing is on yet
  const auto made = must(chair.work({.steps = {chair.run(Step::flow, {16, 46})}, .timer = early}));
  REQUIRE(made.timer.has_value());
  const auto state = must(chair.clinic.session.fields(chair.child, chair.clinic.day)).front();
  REQUIRE(state.running.has_value());
  CHECK(state.running->value.target == base::Seconds(20)); // of the makers, not of the caller
  chair.undo("a slip");
  CHECK(chair.next(16) == chairside::Next::flow);
}

TEST_CASE("A stop with its findings is one act of one child", "[case-88]") {
  AtWork chair;
  const auto old = must(chair.clinic.session.screenings(chair.child)).front();
  auto left = old.value;
  for (auto& tooth : left.teeth)
    if (tooth.tooth == toothAt(26) || tooth.tooth == toothAt(36)) {
      tooth.decision = chairside::Decision::childDeclined;
      tooth.toSeal = {};
    }
  const session::ChairStop stop{chair.field, {toothAt(16), toothAt(46)}, "child refuses"};
  const session::FindingsChange change{old, left, "child refuses"};
  must(chair.work({.stops = {stop}, .findings = change}));
  CHECK(must(chair.clinic.session.placements(chair.child)).size() == 2);
  chair.undo();
  CHECK(must(chair.clinic.session.placements(chair.child)).empty());
  CHECK(must(chair.clinic.session.screenings(chair.child)).front().value == old.value);

  const auto other = chair.clinic.child("Wren");
  chair.clinic.seat(other);
  CHECK(codeOf(chair.work({.stops = {stop},
                           .outcome = chairside::DayOutcome{other, chair.clinic.day,
                                                            chairside::DayEnd::declined, "no"}})) ==
        ErrorCode::ruleIdentity);
  CHECK(must(chair.clinic.session.placements(chair.child)).empty());
}

TEST_CASE("A cure is as long as light and material ask, whatever its target says", "[case-87]") {
  AtWork chair;
  chair.clinic.etchToFlow(chair.field, {16, 46});
  auto cure = chair.run(Step::cure, {16}, 1);
  cure.target = base::Seconds(1);
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by, cure)) == ErrorCode::ruleCure);
  cure.result = StepResult::shortAccepted;
  cure.reason = "a filling was beside it";
  must(chair.clinic.session.enterStep(chair.clinic.by, cure));
  const auto steps = must(chair.clinic.session.dayRecords(chair.clinic.day)).steps;
  CHECK(steps.back().value.target == base::Seconds(20));
}

TEST_CASE("A wet, a clock and a step need an author who may place", "[case-91]") {
  AtWork chair;
  const auto etch = chair.run(Step::etch, {16, 46}, 22);
  const chairside::TimerStart start{chair.field, Step::etch, etch.teeth, base::Seconds(20), {}};
  for (const base::By by :
       {base::By{}, base::By{chair.clinic.assistant, {}}, base::By{chair.clinic.coordinator, {}}}) {
    CHECK(codeOf(chair.clinic.session.wet(by, chair.wet({toothAt(16)}))) ==
          ErrorCode::ruleCredential);
    CHECK(codeOf(chair.clinic.session.startTimer(by, start)) == ErrorCode::ruleCredential);
    CHECK(codeOf(chair.clinic.session.enterStep(by, etch)) == ErrorCode::ruleCredential);
  }
  CHECK(codeOf(chair.clinic.session.wet(chair.clinic.by, chair.wet({toothAt(26)}))) ==
        ErrorCode::ruleTooth);
  CHECK(codeOf(chair.clinic.session.wet(chair.clinic.by, chair.wet({}))) == ErrorCode::ruleTooth);
}
