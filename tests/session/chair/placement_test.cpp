#include "reports/records/inputs.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using chairside::Step;
using chairside::StepResult;
using dentition::toothAt;
using test::codeOf;
using test::must;

namespace {

struct InChair {
  test::Clinic clinic;
  roster::ChildId child = clinic.child("Mina");
  explicit InChair(bool screened = true) {
    clinic.seat(child);
    if (screened) clinic.screenFour(child);
  }
  chairside::FieldId isolate(std::vector<int> teeth) {
    return must(clinic.session.isolate(clinic.by, clinic.field(child, std::move(teeth))));
  }
};

} // namespace

TEST_CASE("A tooth not chosen at the screening cannot be isolated", "[case-31]") {
  InChair chair(false);
  auto screening = chair.clinic.fourSound(chair.child);
  screening.teeth[2].occlusal.condition = chairside::Condition::cavitated;
  CHECK(codeOf(chair.clinic.session.screen(chair.clinic.by, screening)) == ErrorCode::ruleTooth);
  screening.teeth[2].decision = chairside::Decision::refer;
  screening.teeth[2].toSeal = {};
  screening.untreatedDecay = chairside::Tri::yes;
  screening.urgency = chairside::Urgency::early;
  must(chair.clinic.session.screen(chair.clinic.by, screening));
  CHECK(codeOf(chair.clinic.session.isolate(
            chair.clinic.by, chair.clinic.field(chair.child, {26, 36}))) == ErrorCode::ruleTooth);
  must(chair.clinic.session.isolate(chair.clinic.by, chair.clinic.field(chair.child, {26})));
}

TEST_CASE("A surface under gum is left out of the field", "[case-26]") {
  InChair chair(false);
  auto screening = chair.clinic.fourSound(chair.child);
  auto& tooth = screening.teeth[3];
  tooth.presence = chairside::Presence::partlyErupted;
  tooth.softTissue = chairside::SoftTissue::gumOverCompanion;
  tooth.buccal = {};
  tooth.lingual = {};
  tooth.toSeal = {dentition::Surface::occlusal};
  tooth.revisit = true;
  must(chair.clinic.session.screen(chair.clinic.by, screening));
  CHECK(codeOf(chair.clinic.session.isolate(
            chair.clinic.by, chair.clinic.field(chair.child, {46}))) == ErrorCode::ruleTooth);
  auto field = chair.clinic.field(chair.child, {46});
  field.teeth[0].surfaces = {dentition::Surface::occlusal};
  must(chair.clinic.session.isolate(chair.clinic.by, field));
}

TEST_CASE("A child who refuses after two teeth keeps two and leaves two to finish", "[case-42]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  chair.clinic.sealAll(right, {16, 46});
  const auto left = chair.isolate({26, 36});
  CHECK(codeOf(chair.clinic.session.endVisit(
            chair.clinic.by, {chair.child, chair.clinic.day, chairside::DayEnd::sealedUnfinished,
                              "child declined"})) == ErrorCode::ruleOutcome);
  must(chair.clinic.session.stopTeeth(chair.clinic.by, left, {toothAt(26), toothAt(36)},
                                      "child declined"));
  chair.clinic.end(chair.child, chairside::DayEnd::sealedUnfinished, "child declined two");
  int complete = 0;
  for (const auto& placement : must(chair.clinic.session.placements(chair.child)))
    complete += placement.value.attempt == chairside::Attempt::complete;
  CHECK(complete == 2);
}

TEST_CASE("Etched but not sealed is recorded as such", "[case-43]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::etch, {16, 46}, 22)));
  // Etchant is on: it is rinsed off, or someone says why it could not be.
  const std::vector<dentition::Tooth> both{toothAt(16), toothAt(46)};
  CHECK(codeOf(chair.clinic.session.stopTeeth(chair.clinic.by, right, both, "child bolted")) ==
        ErrorCode::ruleStep);
  auto rinse = chair.clinic.run(right, Step::rinse, {16, 46}, 3);
  rinse.result = StepResult::shortAccepted;
  rinse.reason = "child bolted";
  must(chair.clinic.session.work(chair.clinic.by,
                                 {.steps = {rinse}, .stops = {{right, both, "child bolted"}}}));
  const auto placements = must(chair.clinic.session.placements(chair.child));
  REQUIRE(placements.size() == 2);
  CHECK(placements[0].value.attempt == chairside::Attempt::stoppedBeforeSealant);
  CHECK(placements[0].value.etches == 1);
}

TEST_CASE("A cure that stops at 11 of 20 seconds is kept and starts again from zero", "[case-44]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  chair.clinic.etchToFlow(right, {16, 46});
  auto dead = chair.clinic.run(right, Step::cure, {16}, 11);
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by, dead)) == ErrorCode::ruleCure);
  dead.result = StepResult::interrupted;
  dead.reason = "battery";
  must(chair.clinic.session.enterStep(chair.clinic.by, dead));
  auto rest = chair.clinic.run(right, Step::cure, {16}, 9);
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by, rest)) == ErrorCode::ruleCure);
  auto whole = chair.clinic.run(right, Step::cure, {16}, 20);
  whole.light = chair.clinic.spare;
  must(chair.clinic.session.enterStep(chair.clinic.by, whole));
  must(chair.clinic.session.enterStep(chair.clinic.by, chair.clinic.run(right, Step::check, {16})));
  const auto placement = must(chair.clinic.session.placements(chair.child)).at(0).value;
  CHECK(placement.cures == 1);
  CHECK(placement.interruptedCures == 1);
  CHECK(placement.cured == base::Seconds(20));
  CHECK(placement.light == chair.clinic.spare);
}

TEST_CASE("Each cure carries its own light", "[case-45]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  chair.clinic.etchToFlow(right, {16, 46});
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::cure, {16}, 20)));
  auto swapped = chair.clinic.run(right, Step::cure, {46}, 20);
  swapped.light = chair.clinic.spare;
  must(chair.clinic.session.enterStep(chair.clinic.by, swapped));
  for (int iso : {16, 46})
    must(chair.clinic.session.enterStep(chair.clinic.by,
                                        chair.clinic.run(right, Step::check, {iso})));
  const auto placements = must(chair.clinic.session.placements(chair.child));
  CHECK(placements.at(0).value.light == chair.clinic.light);
  CHECK(placements.at(1).value.light == chair.clinic.spare);
}

TEST_CASE("Saliva on one tooth sends that tooth back to etching and blocks its cure", "[case-46]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  chair.clinic.etchToFlow(right, {16, 46});
  must(chair.clinic.session.wet(chair.clinic.by, {right,
                                                  {toothAt(46)},
                                                  chairside::WetStage::beforeCureEnds,
                                                  chairside::WetCause::saliva,
                                                  {}}));
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by,
                                              chair.clinic.run(right, Step::cure, {46}, 20))) ==
        ErrorCode::ruleStep);
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::cure, {16}, 20)));
  chair.clinic.etchToFlow(right, {46});
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::cure, {46}, 20)));
  must(chair.clinic.session.enterStep(chair.clinic.by, chair.clinic.run(right, Step::check, {46})));
  const auto placement = must(chair.clinic.session.placements(chair.child)).at(0).value;
  CHECK(placement.wetEvents == 1);
  CHECK(placement.etches == 2);
}

TEST_CASE("Re-etching is 20 seconds before the sealant and 10 when adding to one", "[case-47]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  chair.clinic.etchToFlow(right, {16, 46});
  const auto wet = [&](int iso, chairside::WetStage stage) {
    must(chair.clinic.session.wet(chair.clinic.by,
                                  {right, {toothAt(iso)}, stage, chairside::WetCause::saliva, {}}));
  };
  wet(46, chairside::WetStage::beforeCureEnds);
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by,
                                              chair.clinic.run(right, Step::etch, {46}, 12))) ==
        ErrorCode::ruleStep);
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::cure, {16}, 20)));
  wet(16, chairside::WetStage::atCheck);
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::etch, {16}, 12)));
}

TEST_CASE("Latex and acrylate and rosin are three different stops", "[case-48]") {
  InChair chair;
  must(chair.clinic.session.enterFlag(chair.clinic.by, {chair.child,
                                                        roster::FlagKind::rosinReaction,
                                                        roster::FlagAction::stop,
                                                        "sticking plaster rash",
                                                        false,
                                                        {}}));
  CHECK(codeOf(chair.clinic.session.varnish(
            chair.clinic.by, {chair.child, chair.clinic.day, chair.clinic.varnish})) ==
        ErrorCode::ruleAllergy);
  const auto right = chair.isolate({16, 46});
  chair.clinic.sealAll(right, {16, 46});
  must(chair.clinic.session.enterFlag(chair.clinic.by, {chair.child,
                                                        roster::FlagKind::acrylateAllergy,
                                                        roster::FlagAction::stop,
                                                        "from the form",
                                                        false,
                                                        {}}));
  CHECK(codeOf(chair.clinic.session.isolate(
            chair.clinic.by, chair.clinic.field(chair.child, {26, 36}))) == ErrorCode::ruleAllergy);
}

TEST_CASE("Varnish waits until the sealants in hand are finished", "[case-49]") {
  InChair chair;
  const auto right = chair.isolate({16, 46});
  const chairside::Varnish varnish{chair.child, chair.clinic.day, chair.clinic.varnish};
  CHECK(codeOf(chair.clinic.session.varnish(chair.clinic.by, varnish)) == ErrorCode::ruleVarnish);
  chair.clinic.sealAll(right, {16, 46});
  // Two teeth were planned and are not even begun.
  CHECK(codeOf(chair.clinic.session.varnish(chair.clinic.by, varnish)) == ErrorCode::ruleVarnish);
  chair.clinic.sealAll(chair.isolate({26, 36}), {26, 36});
  must(chair.clinic.session.varnish(chair.clinic.by, varnish));
  // The second on one day is sooner than the program waits.
  CHECK(codeOf(chair.clinic.session.varnish(chair.clinic.by, varnish)) == ErrorCode::ruleVarnish);
}

TEST_CASE("Two operators may finish one child and each tooth names its own", "[case-50]") {
  InChair chair;
  const auto second = must(chair.clinic.session.enterMember(
      chair.clinic.by,
      {"Tamsin Quillbrook", "TQ", roster::Role::hygienist, "HY-00588",
       must(base::Date::parse("2026-12-15")), roster::usualTasks(roster::Role::hygienist)}));
  chair.clinic.sealAll(chair.isolate({16, 46}), {16, 46});
  chair.clinic.by.author = second;
  chair.clinic.sealAll(chair.isolate({26, 36}), {26, 36});
  const auto placements = must(chair.clinic.session.placements(chair.child));
  CHECK(placements.at(0).value.placedBy == chair.clinic.hygienist);
  CHECK(placements.at(3).value.placedBy == second);
}

TEST_CASE("The one who typed is kept apart from the one who did it", "[case-51]") {
  InChair chair;
  chair.clinic.sealAll(chair.isolate({16, 46}), {16, 46});
  const auto placement = must(chair.clinic.session.placements(chair.child)).at(0);
  CHECK(placement.stamp.by.author == chair.clinic.hygienist);
  CHECK(placement.stamp.by.recorder == chair.clinic.assistant);
  const base::By typed{chair.clinic.assistant, {}};
  CHECK(codeOf(chair.clinic.session.isolate(typed, chair.clinic.field(chair.child, {26, 36}))) ==
        ErrorCode::ruleCredential);
}

TEST_CASE("A lot changed in mid-morning leaves earlier teeth with the old one", "[case-52]") {
  InChair chair;
  chair.clinic.sealAll(chair.isolate({16, 46}), {16, 46});
  const auto fresh =
      must(chair.clinic.session.enterLot(chair.clinic.by, {kit::MaterialKind::sealantLightCure,
                                                           "Resin Fern",
                                                           "RF-2610",
                                                           must(base::parseExpiry("2027-06")),
                                                           base::Seconds(20),
                                                           {kit::Contains::acrylate},
                                                           false,
                                                           {}}));
  auto field = chair.clinic.field(chair.child, {26, 36});
  field.sealant = fresh;
  chair.clinic.sealAll(must(chair.clinic.session.isolate(chair.clinic.by, field)), {26, 36});
  const auto placements = must(chair.clinic.session.placements(chair.child));
  CHECK(placements.at(1).value.sealant == chair.clinic.resin);
  CHECK(placements.at(2).value.sealant == fresh);
}

TEST_CASE("A lot leads to its teeth and a quarantined one is not used again", "[case-53]") {
  InChair chair;
  chair.clinic.sealAll(chair.isolate({16, 46}), {16, 46});
  must(chair.clinic.session.quarantineLot(chair.clinic.by, chair.clinic.resin, "maker's notice"));
  CHECK(codeOf(chair.clinic.session.isolate(chair.clinic.by,
                                            chair.clinic.field(chair.child, {26, 36}))) ==
        ErrorCode::ruleMaterial);
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  CHECK(std::ranges::count_if(records.placements, [&](const auto& placement) {
          return placement.value.sealant == chair.clinic.resin;
        }) == 2);
}

TEST_CASE("A self-cure material wants its setting time and no lamp", "[case-54]") {
  InChair chair;
  auto field = chair.clinic.field(chair.child, {16, 46});
  field.sealant = chair.clinic.selfCure;
  const auto right = must(chair.clinic.session.isolate(chair.clinic.by, field));
  chair.clinic.etchToFlow(right, {16, 46});
  auto set = chair.clinic.run(right, Step::cure, {16, 46}, 60);
  set.target = base::Seconds(60);
  set.lot = chair.clinic.selfCure;
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by, set)) == ErrorCode::ruleCure);
  set.light.reset();
  must(chair.clinic.session.enterStep(chair.clinic.by, set));
  must(chair.clinic.session.enterStep(chair.clinic.by, chair.clinic.run(right, Step::check, {16})));
  CHECK_FALSE(must(chair.clinic.session.placements(chair.child)).at(0).value.light.has_value());
}

TEST_CASE("Two cures of one tooth are one sealed tooth and two surfaces", "[case-55]") {
  InChair chair;
  const auto right = chair.isolate({16});
  chair.clinic.etchToFlow(right, {16});
  for (const auto surface : {dentition::Surface::occlusal, dentition::Surface::lingualGroove}) {
    auto cure = chair.clinic.run(right, Step::cure, {16}, 20);
    cure.teeth[0].surfaces = {surface};
    must(chair.clinic.session.enterStep(chair.clinic.by, cure));
  }
  must(chair.clinic.session.enterStep(chair.clinic.by, chair.clinic.run(right, Step::check, {16})));
  const auto placements = must(chair.clinic.session.placements(chair.child));
  REQUIRE(placements.size() == 1);
  CHECK(placements[0].value.cures == 2);
  CHECK(placements[0].value.surfaces.size() == 2);
}

TEST_CASE("The last act is taken back in one go and stays in the history", "[case-56]") {
  InChair chair;
  const session::UndoAt here{base::Station::chair, chair.clinic.day, chair.child};
  const auto wrong = chair.isolate({26});
  CHECK(must(chair.clinic.session.undo(chair.clinic.by, here)) == "Isolation, Mina H.");
  CHECK(must(chair.clinic.session.fields(chair.child, chair.clinic.day)).empty());
  const auto right = chair.isolate({16});
  CHECK(right != wrong);
  chair.clinic.etchToFlow(right, {16});
  must(chair.clinic.session.enterStep(chair.clinic.by,
                                      chair.clinic.run(right, Step::cure, {16}, 20)));
  must(chair.clinic.session.enterStep(chair.clinic.by, chair.clinic.run(right, Step::check, {16})));
  // Sealant has flowed: a correction, with its reason.
  CHECK(codeOf(chair.clinic.session.undo(chair.clinic.by, here)) == ErrorCode::ruleReason);
  CHECK(must(chair.clinic.session.undo(chair.clinic.by, here, "the check was another tooth's")) ==
        "Check, upper right first molar, Mina H.");
  CHECK(must(chair.clinic.session.placements(chair.child)).empty());
  const auto state = must(chair.clinic.session.fields(chair.child, chair.clinic.day)).at(0);
  CHECK(state.protocol.next() == chairside::Next::check);
}

TEST_CASE("A red light is refused until a clinician gives a reason") {
  InChair chair;
  must(chair.clinic.session.enterReading(
      chair.clinic.by,
      {chair.clinic.light, chair.clinic.clock.now().date(), {830}, true, "M-1", true}));
  const auto right = chair.isolate({16});
  chair.clinic.etchToFlow(right, {16});
  auto cure = chair.clinic.run(right, Step::cure, {16}, 20);
  CHECK(codeOf(chair.clinic.session.enterStep(chair.clinic.by, cure)) == ErrorCode::ruleLight);
  cure.light = chair.clinic.spare;
  must(chair.clinic.session.enterStep(chair.clinic.by, cure));
}
