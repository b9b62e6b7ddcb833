#include "chair.h"

// What a step may not be, whatever the one who enters it says of it.
using namespace gk::chairside;
using namespace gk::chairside::test;

TEST_CASE("a cure has its least from the makers and not from its own target", "[case-87]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  auto run = chair.exposure(teeth, 1s);
  run.target = 1s;
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  run.target.reset();
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  run.lasted = 20s;
  CHECK(chair.take(run));
}

TEST_CASE("a material that sets by itself has its wait or a reason", "[case-87]") {
  const auto teeth = occlusalOf({36});
  Chair chair(teeth, MaterialKind::sealantSelfCure);
  chair.leastCure = 60s;
  chair.readyToCure(teeth);
  auto run = chair.blank(Step::cure, teeth);
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  run.lasted = 59s;
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  chair.leastCure = 0s; // no one entered the maker's time
  run.lasted = 60s;
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  run.result = StepResult::shortAccepted;
  run.reason = "hard to the probe";
  CHECK(chair.take(run));
}

TEST_CASE("an etch past its limit is asked about after the rinse", "[case-93]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  REQUIRE(chair.etch(teeth, 61s));
  REQUIRE(chair.rinse(teeth));
  auto run = chair.blank(Step::dry, teeth);
  run.result = StepResult::frosty;
  CHECK(chair.take(run).error().code == ErrorCode::ruleReason);
  run.reason = "the child coughed";
  CHECK(chair.take(run));
  CHECK_FALSE(chair.at(16).etchedLong);
}

TEST_CASE("an etch of just its limit, is not asked about and a target of its own does not move it",
          "[case-93]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  auto run = chair.blank(Step::etch, teeth);
  run.lasted = 60s;
  REQUIRE(chair.take(run));
  CHECK_FALSE(chair.at(16).etchedLong);
  const auto others = occlusalOf({46});
  Chair second(others);
  auto longer = second.blank(Step::etch, others);
  longer.lasted = 90s;
  longer.target = 90s;
  REQUIRE(second.take(longer));
  CHECK(second.at(46).etchedLong);
}

TEST_CASE("an etch as long as its etchant's maker asks is not too long", "[case-93]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  Protocol slow(chair.field, {chair.rules.times, MaterialKind::sealantLightCure, 90s});
  auto run = chair.blank(Step::etch, teeth);
  run.lasted = 90s;
  REQUIRE(slow.allows(run, 0s));
  slow.apply(run);
  CHECK_FALSE(slow.teeth().front().etchedLong);
}

TEST_CASE("etchant that is on is rinsed before a stop, whatever sent the tooth back",
          "[case-140]") {
  const auto teeth = occlusalOf({16});
  const std::vector names{toothAt(16)};
  Chair chair(teeth);
  SECTION("an interrupted etch") {
    auto run = chair.blank(Step::etch, teeth);
    run.result = StepResult::interrupted;
    run.lasted = 8s;
    REQUIRE(chair.take(run));
  }
  SECTION("saliva while the etchant is on") {
    REQUIRE(chair.etch(teeth));
    chair.wet(names);
  }
  CHECK(chair.protocol.next() == Next::etch);
  CHECK(chair.protocol.allowsStop(names).error().code == ErrorCode::ruleStep);
  CHECK(chair.protocol.due(Next::rinse) == teeth);
  REQUIRE(chair.rinse(teeth));
  CHECK(chair.protocol.next() == Next::etch);
  CHECK(chair.protocol.due(Next::rinse).empty());
  CHECK(chair.protocol.allowsStop(names));
}

TEST_CASE("etchant is on from its first etch until the rinse, however often it is begun again",
          "[case-140]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  auto run = chair.blank(Step::etch, teeth);
  run.result = StepResult::interrupted;
  run.lasted = 45s;
  REQUIRE(chair.take(run));
  REQUIRE(chair.etch(teeth, 20s));
  CHECK(chair.at(16).etchedLong);
}

TEST_CASE("a tooth with etchant on is rinsed before it is stopped", "[case-93]") {
  const auto teeth = occlusalOf({16, 46});
  Chair chair(teeth);
  const std::vector names{toothAt(16), toothAt(46)};
  CHECK(chair.protocol.allowsStop(names));
  REQUIRE(chair.etch(teeth));
  CHECK(chair.protocol.allowsStop(names).error().code == ErrorCode::ruleStep);
  REQUIRE(chair.rinse(teeth));
  CHECK(chair.protocol.allowsStop(names));
}

TEST_CASE("a clock runs for the next step of its teeth and for no other", "[case-91]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  TimerStart start{chair.fieldId, Step::cure, teeth, 20s, chair.light};
  CHECK(chair.protocol.allows(start).error().code == ErrorCode::ruleStep);
  start = {chair.fieldId, Step::etch, occlusalOf({26}), 20s, {}};
  CHECK(chair.protocol.allows(start).error().code == ErrorCode::ruleStep);
  start.teeth = teeth;
  CHECK(chair.protocol.allows(start));
  start.step = Step::dry;
  CHECK(chair.protocol.allows(start).error().code == ErrorCode::ruleStep);
}

TEST_CASE("only teeth of the field that are not finished can be wet", "[case-91]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  Wet wet{chair.fieldId, {toothAt(26)}, WetStage::afterEtch, WetCause::saliva, {}};
  CHECK(chair.protocol.allows(wet).error().code == ErrorCode::ruleTooth);
  wet.teeth = {toothAt(16), toothAt(16)};
  CHECK(chair.protocol.allows(wet).error().code == ErrorCode::ruleTooth);
  wet.teeth = {toothAt(16)};
  CHECK(chair.protocol.allows(wet));
  chair.place(teeth);
  CHECK(chair.protocol.allows(wet).error().code == ErrorCode::ruleStep);
}

TEST_CASE("four hands need a second person, and so does an assistant's hand", "[case-96]") {
  Chair chair(occlusalOf({16}));
  auto field = chair.field;
  CHECK(checkField(field, chair.rules.material));
  field.fourHanded = true;
  CHECK(checkField(field, chair.rules.material).error().code == ErrorCode::ruleCredential);
  field.fourHanded = false;
  field.tongue = Holder::assistantHand;
  CHECK(checkField(field, chair.rules.material).error().code == ErrorCode::ruleCredential);
  field.assistant = chair.hygienist;
  CHECK(checkField(field, chair.rules.material));
}

TEST_CASE("how the teeth were cleaned is said, and what is out of the ordinary in words",
          "[case-95]") {
  Chair chair(occlusalOf({16}));
  auto field = chair.field;
  field.cleaned = Cleaning::notRecorded;
  CHECK(checkField(field, chair.rules.material).error().code == ErrorCode::ruleReason);
  field.cleaned = GENERATE(Cleaning::other, Cleaning::notCleaned);
  CHECK(checkField(field, chair.rules.material).error().code == ErrorCode::ruleReason);
  field.note = "cleaned at home this morning";
  CHECK(checkField(field, chair.rules.material));
}
