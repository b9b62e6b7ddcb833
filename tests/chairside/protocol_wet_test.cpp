#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

TEST_CASE("saliva on one tooth of a half mouth sends that tooth alone back to etch", "[case-46]") {
  const auto both = occlusalOf({16, 46});
  Chair chair(both);
  chair.readyToFlow(both);
  chair.wet({toothAt(16)});
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.at(16).wet);
  CHECK(chair.at(16).wetEvents == 1);
  CHECK(chair.next(46) == Next::flow);
  CHECK_FALSE(chair.at(46).wet);
  CHECK(chair.at(46).wetEvents == 0);
}

TEST_CASE("saliva between etch and the end of cure asks for the longer etch", "[case-47]") {
  const auto teeth = occlusalOf({16});
  for (int stepsAfterEtch : {0, 1, 2, 3}) {
    Chair chair(teeth);
    REQUIRE(chair.etch(teeth));
    if (stepsAfterEtch > 0) REQUIRE(chair.rinse(teeth));
    if (stepsAfterEtch > 1) REQUIRE(chair.dry(teeth));
    if (stepsAfterEtch > 2) REQUIRE(chair.flow(teeth));
    chair.wet({toothAt(16)});
    CHECK(chair.next(16) == Next::etch);
    CHECK(chair.at(16).etchReason == EtchReason::wetBeforeSealant);
    CHECK(chair.protocol.etchTarget(teeth) == 20s);
    CHECK_FALSE(chair.etch(teeth, 10s));
  }
}

TEST_CASE("saliva at the check asks for the shorter etch before adding", "[case-47]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCheck(teeth);
  chair.wet({toothAt(16)});
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.at(16).etchReason == EtchReason::wetWhenAdding);
  CHECK(chair.protocol.etchTarget(teeth) == 10s);
  CHECK_FALSE(chair.etch(teeth, 9s));
  chair.readyToFlow(teeth, 10s);
  REQUIRE(chair.flow(teeth));
  CHECK(chair.next(16) == Next::cure);
  REQUIRE(chair.cure(teeth));
  REQUIRE(chair.check(teeth, StepResult::addedThenPassed));
  CHECK(chair.summary(16).etches == 2);
  CHECK(chair.summary(16).wetEvents == 1);
}

TEST_CASE("the two numbers for etching again are the program's own and never merge", "[case-47]") {
  const auto both = occlusalOf({16, 46});
  Chair chair(both);
  chair.rules.times.etchAgainWet = 18s;
  chair.rules.times.etchAgainAdding = 12s;
  chair.protocol = Protocol(chair.field, chair.rules);
  chair.readyToFlow(both);
  REQUIRE(chair.flow(both));
  REQUIRE(chair.cure(occlusalOf({46})));
  chair.wet({toothAt(16), toothAt(46)});
  CHECK(chair.protocol.etchTarget(occlusalOf({16})) == 18s);
  CHECK(chair.protocol.etchTarget(occlusalOf({46})) == 12s);
  CHECK(chair.protocol.etchTarget(both) == 18s);
}

TEST_CASE("a field that adds to a sealant already placed etches for the shorter time",
          "[case-47]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth, MaterialKind::sealantLightCure, true);
  CHECK(chair.at(16).etchReason == EtchReason::wetWhenAdding);
  CHECK(chair.protocol.etchTarget(teeth) == 10s);
  chair.readyToFlow(teeth, 10s);
  chair.wet({toothAt(16)});
  CHECK(chair.protocol.etchTarget(teeth) == 10s);
}

TEST_CASE("a wet tooth takes no cure until it is etched again") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  chair.wet({toothAt(16)});
  const auto refused = chair.cure(teeth);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::ruleStep);
  CHECK(refused.error().detail == "upper right first molar was contaminated; etch it again first");
  REQUIRE(chair.etch(teeth));
  CHECK_FALSE(chair.at(16).wet);
}

TEST_CASE("saliva before the etch is counted and changes nothing else") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.wet({toothAt(16)});
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.at(16).etchReason == EtchReason::first);
  CHECK_FALSE(chair.at(16).wet);
  CHECK(chair.at(16).wetEvents == 1);
}

TEST_CASE("teeth that are finished or not in the field take no notice of saliva") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.place(teeth);
  chair.wet({toothAt(16), toothAt(26)});
  CHECK(chair.next(16) == Next::placed);
  CHECK(chair.at(16).wetEvents == 0);
}

TEST_CASE("a glass ionomer that gets wet is dried and flowed again") {
  const auto teeth = occlusalOf({37});
  Chair chair(teeth, MaterialKind::glassIonomer);
  REQUIRE(chair.dry(teeth, StepResult::done));
  REQUIRE(chair.flow(teeth));
  chair.wet({toothAt(37)});
  CHECK(chair.next(37) == Next::dry);
  CHECK(chair.at(37).wet);
  REQUIRE(chair.dry(teeth, StepResult::done));
  CHECK_FALSE(chair.at(37).wet);
}

TEST_CASE("the stage of a wet follows from the step that the tooth waits for") {
  const auto teeth = occlusalOf({16});
  const auto tooth = toothAt(16);
  Chair chair(teeth);
  CHECK(chair.protocol.stageOf(tooth) == WetStage::beforeEtch);
  REQUIRE(chair.etch(teeth));
  CHECK(chair.protocol.stageOf(tooth) == WetStage::afterEtch);
  REQUIRE(chair.rinse(teeth));
  CHECK(chair.protocol.stageOf(tooth) == WetStage::afterEtch);
  REQUIRE(chair.dry(teeth));
  CHECK(chair.protocol.stageOf(tooth) == WetStage::afterFrosty);
  REQUIRE(chair.flow(teeth));
  CHECK(chair.protocol.stageOf(tooth) == WetStage::beforeCureEnds);
  REQUIRE(chair.cure(teeth));
  CHECK(chair.protocol.stageOf(tooth) == WetStage::atCheck);
}
