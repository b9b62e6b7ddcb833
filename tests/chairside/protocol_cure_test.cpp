#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

TEST_CASE("a light that dies at 11 of 20 seconds leaves the tooth uncured and both runs counted",
          "[case-44]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  REQUIRE(chair.cure(teeth, 11s, StepResult::interrupted));
  CHECK(chair.next(16) == Next::cure);
  CHECK(chair.at(16).interruptedCures == 1);
  CHECK(chair.at(16).cured.isEmpty());

  // 11 s and 9 s are never added up.
  const auto refused = chair.cure(teeth, 9s);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::ruleCure);

  REQUIRE(chair.cure(teeth));
  CHECK(chair.next(16) == Next::check);
  CHECK(chair.at(16).interruptedCures == 1);
  CHECK(chair.at(16).cures == 1);
  CHECK(chair.at(16).curedShortest == 20000ms);
}

TEST_CASE("a field that got wet while the light was changed is cleared and redone from etch",
          "[case-44]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  REQUIRE(chair.cure(teeth, 11s, StepResult::interrupted));
  chair.wet({toothAt(16)});
  CHECK(chair.next(16) == Next::etch);
  CHECK_FALSE(chair.at(16).flowed);
  CHECK(chair.cure(teeth).error().code == ErrorCode::ruleStep);
  chair.place(teeth);
  CHECK(chair.summary(16).interruptedCures == 1);
}

TEST_CASE("a cure short of its target says how long it ran") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  CHECK(chair.cure(teeth, 11s).error().detail ==
        "cure ran 11.0 s of 20 s; record it as interrupted and start a full one, or "
        "accept the short time with a reason");
}

TEST_CASE("a short cure is taken with a clinician's reason and shows in the placement") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  auto run = chair.exposure(teeth, 15s, StepResult::shortAccepted);
  CHECK(chair.take(run).error().code == ErrorCode::ruleReason);
  run.reason = "child closed, set hard to the probe";
  REQUIRE(chair.take(run));
  REQUIRE(chair.check(teeth));
  CHECK(chair.summary(16).cured == 15000ms);
}

TEST_CASE("a light-cure material needs a light and a target") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  auto run = chair.exposure(teeth);
  run.light.reset();
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  run = chair.exposure(teeth);
  chair.leastCure = 0s; // no time is known for this light and material
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  chair.leastCure = 20s;
  run = chair.exposure(teeth);
  run.lasted.reset();
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
}

TEST_CASE("a self-cure material waits for its set and wants no light", "[case-54]") {
  const auto teeth = occlusalOf({36, 37});
  Chair chair(teeth, MaterialKind::sealantSelfCure);
  chair.readyToCure(teeth);
  auto run = chair.exposure(teeth, 60s);
  run.light = chair.light;
  CHECK(chair.take(run).error().code == ErrorCode::ruleCure);
  run.light.reset();
  REQUIRE(chair.take(run));
  REQUIRE(chair.check(teeth));
  CHECK(chair.summary(36).attempt == Attempt::complete);
  CHECK_FALSE(chair.summary(36).light);
}

TEST_CASE("a self-cure material with a set time by its maker is not done before it", "[case-54]") {
  const auto teeth = occlusalOf({36});
  Chair chair(teeth, MaterialKind::sealantSelfCure);
  chair.readyToCure(teeth);
  CHECK(chair.cure(teeth, 10s).error().code == ErrorCode::ruleCure);
  const auto untimed = chair.blank(Step::cure, teeth);
  CHECK(chair.take(untimed).error().code == ErrorCode::ruleCure);
  CHECK(chair.cure(teeth, 20s));
}

TEST_CASE("a companion surface cured apart is one tooth with two cures and two surfaces",
          "[case-55]") {
  const SurfaceSet both{Surface::occlusal, Surface::buccalPit};
  const ToothSurfaces whole{toothAt(36), both};
  const ToothSurfaces pit{toothAt(36), {Surface::buccalPit}};
  Chair chair({whole});
  chair.readyToCure({whole});
  REQUIRE(chair.cure({{toothAt(36), occlusal}}));
  CHECK(chair.next(36) == Next::cure);
  CHECK(chair.protocol.due(Next::cure) == std::vector{pit});
  REQUIRE(chair.cure({pit}, 25s));
  REQUIRE(chair.check({whole}));
  const auto placed = chair.summary(36);
  CHECK(placed.surfaces == both);
  CHECK(placed.cures == 2);
  CHECK(placed.cured == 20000ms);
  CHECK(countsAsSealant(placed));
}

TEST_CASE("a half-cured tooth that gets wet is cured again on every surface") {
  const ToothSurfaces whole{toothAt(36), {Surface::occlusal, Surface::buccalPit}};
  Chair chair({whole});
  chair.readyToCure({whole});
  REQUIRE(chair.cure({{toothAt(36), occlusal}}));
  chair.wet({toothAt(36)});
  chair.readyToCure({whole});
  CHECK(chair.protocol.due(Next::cure) == std::vector{whole});
  CHECK(chair.at(36).cures == 0);
}

TEST_CASE("each cure carries its own light", "[case-45]") {
  const auto both = occlusalOf({16, 46});
  Chair chair(both);
  const auto second = chair.ids.make<gk::kit::LightId>();
  chair.readyToCure(both);
  REQUIRE(chair.cure(occlusalOf({16})));
  auto run = chair.exposure(occlusalOf({46}));
  run.light = second;
  REQUIRE(chair.take(run));
  REQUIRE(chair.check(both));
  CHECK(chair.summary(16).light == chair.light);
  CHECK(chair.summary(46).light == second);
}

TEST_CASE("a lot changed between two teeth leaves the earlier tooth its own", "[case-52]") {
  const auto both = occlusalOf({16, 46});
  Chair chair(both);
  const auto newLot = chair.ids.make<gk::kit::LotId>();
  chair.readyToFlow(both);
  REQUIRE(chair.flow(occlusalOf({16})));
  auto run = chair.blank(Step::flow, occlusalOf({46}));
  run.lot = newLot;
  REQUIRE(chair.take(run));
  CHECK(chair.summary(16).sealant == chair.field.sealant);
  CHECK(chair.summary(46).sealant == newLot);
}
