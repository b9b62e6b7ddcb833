#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

TEST_CASE("a resin sealant goes through etch rinse dry flow cure and check") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  CHECK(chair.next(16) == Next::etch);
  REQUIRE(chair.etch(teeth));
  CHECK(chair.next(16) == Next::rinse);
  REQUIRE(chair.rinse(teeth));
  CHECK(chair.next(16) == Next::dry);
  REQUIRE(chair.dry(teeth));
  CHECK(chair.next(16) == Next::flow);
  REQUIRE(chair.flow(teeth));
  CHECK(chair.next(16) == Next::cure);
  REQUIRE(chair.cure(teeth));
  CHECK(chair.next(16) == Next::check);
  REQUIRE(chair.check(teeth));
  CHECK(chair.next(16) == Next::placed);
  CHECK(chair.protocol.next() == Next::placed);
}

TEST_CASE("a step out of order is refused and says what the tooth needs") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  const auto refused = chair.flow(teeth);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::ruleStep);
  CHECK(refused.error().detail ==
        "upper right first molar needs \"etch\" next, not \"place sealant\"");
  CHECK(chair.next(16) == Next::etch);
}

TEST_CASE("a step is refused for no tooth or a strange one or one named twice") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  CHECK(chair.etch({}).error().code == ErrorCode::ruleStep);
  CHECK(chair.etch(occlusalOf({26})).error().code == ErrorCode::ruleStep);
  CHECK(chair.etch(occlusalOf({16, 16})).error().code == ErrorCode::ruleStep);
}

TEST_CASE("every step but a cure takes all the surfaces of the tooth") {
  const SurfaceSet both{Surface::occlusal, Surface::buccalPit};
  Chair chair({{toothAt(36), both}});
  CHECK(chair.etch({{toothAt(36), occlusal}}).error().code == ErrorCode::ruleStep);
  CHECK(chair.etch({{toothAt(36), {Surface::lingualGroove}}}).error().code == ErrorCode::ruleStep);
  CHECK(chair.etch({{toothAt(36), both}}));
}

TEST_CASE("a placed tooth takes no further step") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.place(teeth);
  const auto refused = chair.etch(teeth);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().detail == "upper right first molar is placed; nothing more is due");
}

TEST_CASE("an etch under its least is refused with both numbers") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  const auto refused = chair.etch(teeth, 19990ms);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::ruleStep);
  CHECK(refused.error().detail ==
        "etch ran 19.9 s of 20 s; etch for at least 20 s, or accept the short time "
        "with a reason");
}

TEST_CASE("an etch without a time is refused") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  CHECK(chair.take(chair.blank(Step::etch, teeth)).error().code == ErrorCode::ruleStep);
}

TEST_CASE("a short etch is taken with a reason only") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  auto run = chair.blank(Step::etch, teeth);
  run.lasted = 15s;
  run.result = StepResult::shortAccepted;
  run.reason = "  ";
  CHECK(chair.take(run).error().code == ErrorCode::ruleReason);
  run.reason = "primary enamel, child restless";
  REQUIRE(chair.take(run));
  CHECK(chair.next(16) == Next::rinse);
  CHECK(chair.at(16).etched == 15000ms);
}

TEST_CASE("an etch aimed higher than the least must reach its own target") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  auto run = chair.blank(Step::etch, teeth);
  run.lasted = 22s;
  run.target = 30s;
  CHECK(chair.take(run).error().code == ErrorCode::ruleStep);
  run.target = 10s;
  CHECK(chair.take(run));
}

TEST_CASE("the etchant maker's time wins where it asks for more") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.rules.makersEtch = 30s;
  chair.protocol = Protocol(chair.field, chair.rules);
  CHECK(chair.protocol.etchTarget(teeth) == 30s);
  CHECK_FALSE(chair.etch(teeth, 25s));
}

TEST_CASE("an interrupted etch is etched again for the full time") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  auto run = chair.blank(Step::etch, teeth);
  run.result = StepResult::interrupted;
  run.lasted = 5s;
  REQUIRE(chair.take(run));
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.at(16).etchReason == EtchReason::incompleteEarlier);
  CHECK(chair.at(16).etches == 0);
  CHECK(chair.protocol.etchTarget(teeth) == 20s);
}

TEST_CASE("a rinse has its own least and is short only with a reason", "[case-93]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  REQUIRE(chair.etch(teeth));
  auto run = chair.blank(Step::rinse, teeth);
  run.lasted = 6s;
  CHECK(chair.take(run).error().code == ErrorCode::ruleStep);
  CHECK(chair.take(chair.blank(Step::rinse, teeth)).error().code == ErrorCode::ruleStep);
  run.result = StepResult::shortAccepted;
  run.reason = "gagging";
  CHECK(chair.protocol.allows(run, 0s));
  CHECK(chair.rinse(teeth));
}

TEST_CASE("a tooth that is not frosty goes back to etch") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  REQUIRE(chair.etch(teeth));
  REQUIRE(chair.rinse(teeth));
  REQUIRE(chair.dry(teeth, StepResult::notFrosty));
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.at(16).etchReason == EtchReason::notFrosty);
  CHECK_FALSE(chair.at(16).wet);
  chair.readyToFlow(teeth);
  CHECK(chair.at(16).etches == 2);
  CHECK(chair.at(16).frosty);
}

TEST_CASE("drying must say whether the tooth is frosty") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  REQUIRE(chair.etch(teeth));
  REQUIRE(chair.rinse(teeth));
  CHECK(chair.dry(teeth, StepResult::done).error().code == ErrorCode::ruleStep);
}

TEST_CASE("going on where frost cannot be told from fluorosis needs a reason and shows",
          "[case-33]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  REQUIRE(chair.etch(teeth));
  REQUIRE(chair.rinse(teeth));
  auto run = chair.blank(Step::dry, teeth);
  run.result = StepResult::frostyNotSeen;
  CHECK(chair.take(run).error().code == ErrorCode::ruleReason);
  run.reason = "white from fluorosis before etching";
  REQUIRE(chair.take(run));
  CHECK(chair.next(16) == Next::flow);
  CHECK_FALSE(chair.at(16).frosty);
}

TEST_CASE("teeth of a field go on by themselves and the most backward one leads") {
  const auto both = occlusalOf({16, 17});
  Chair chair(both);
  REQUIRE(chair.etch(both));
  REQUIRE(chair.rinse(both));
  REQUIRE(chair.dry(occlusalOf({16})));
  CHECK(chair.protocol.next() == Next::dry);
  CHECK(chair.protocol.due(Next::dry) == occlusalOf({17}));
  CHECK(chair.protocol.due(Next::flow) == occlusalOf({16}));
}

TEST_CASE("a sealant that the check finds wanting is not achieved and not counted") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCheck(teeth);
  REQUIRE(chair.check(teeth, StepResult::notAchieved));
  CHECK(chair.next(16) == Next::notAchieved);
  CHECK(chair.summary(16).attempt == Attempt::notAchieved);
  CHECK_FALSE(countsAsSealant(chair.summary(16)));
}

TEST_CASE("a sealant added to or redone at the check is placed without further steps") {
  for (auto result : {StepResult::addedThenPassed, StepResult::redoneThenPassed}) {
    const auto teeth = occlusalOf({16});
    Chair chair(teeth);
    chair.readyToCheck(teeth);
    REQUIRE(chair.check(teeth, result));
    CHECK(chair.protocol.next() == Next::placed);
    CHECK(chair.summary(16).check == result);
    CHECK(countsAsSealant(chair.summary(16)));
  }
}

TEST_CASE("a glass ionomer is dried and flowed without etch or frost and waits without a light") {
  const auto teeth = occlusalOf({37});
  Chair chair(teeth, MaterialKind::glassIonomer);
  CHECK(chair.next(37) == Next::dry);
  CHECK(chair.etch(teeth).error().code == ErrorCode::ruleStep);
  CHECK(chair.dry(teeth, StepResult::frosty).error().code == ErrorCode::ruleStep);
  REQUIRE(chair.dry(teeth, StepResult::done));
  REQUIRE(chair.flow(teeth));
  REQUIRE(chair.cure(teeth));
  REQUIRE(chair.check(teeth));
  const auto placed = chair.summary(37, PlacementType::interim);
  CHECK(placed.attempt == Attempt::complete);
  CHECK_FALSE(placed.etchant);
  CHECK_FALSE(placed.light);
  CHECK_FALSE(countsAsSealant(placed));
}

TEST_CASE("undoing a step is to build the field from the rows that are left", "[case-56]") {
  const auto both = occlusalOf({16, 17});
  Chair chair(both);
  auto wrongTooth = chair.blank(Step::etch, occlusalOf({17}));
  wrongTooth.lasted = 20s;
  REQUIRE(chair.take(wrongTooth));
  chair.protocol = Protocol(chair.field, chair.rules);
  REQUIRE(chair.etch(occlusalOf({16})));
  CHECK(chair.next(17) == Next::etch);
  CHECK(chair.at(17).etches == 0);
  CHECK_FALSE(chair.at(16).flowed);
  REQUIRE(chair.rinse(occlusalOf({16})));
  REQUIRE(chair.dry(occlusalOf({16})));
  REQUIRE(chair.flow(occlusalOf({16})));
  CHECK(chair.at(16).flowed); // from here on undoing is a correction with a reason
}

TEST_CASE("rows that do not fit leave the tooth as it was") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.protocol.apply(chair.exposure(teeth));
  chair.protocol.apply(chair.blank(Step::check, occlusalOf({26})));
  CHECK(chair.next(16) == Next::etch);
  CHECK(chair.at(16).cures == 0);
}

TEST_CASE("a field is checked before it is opened") {
  Chair chair(occlusalOf({16, 46}));
  auto field = chair.field;
  CHECK(checkField(field, MaterialKind::sealantLightCure));
  field.guards.remove(DryGuard::cheekHeldOff);
  CHECK(checkField(field, MaterialKind::sealantLightCure).error().code == ErrorCode::ruleReason);
  field.note = "pad would not hold";
  CHECK(checkField(field, MaterialKind::sealantLightCure));
  field.etchant.reset();
  CHECK(checkField(field, MaterialKind::sealantLightCure).error().code == ErrorCode::ruleMaterial);
  CHECK(checkField(field, MaterialKind::glassIonomer));
  field.teeth = occlusalOf({16, 16});
  CHECK(checkField(field, MaterialKind::glassIonomer).error().code == ErrorCode::ruleTooth);
  field.teeth = {{toothAt(16), {}}};
  CHECK(checkField(field, MaterialKind::glassIonomer).error().code == ErrorCode::ruleTooth);
  field.teeth = {};
  CHECK(checkField(field, MaterialKind::glassIonomer).error().code == ErrorCode::ruleTooth);
}
