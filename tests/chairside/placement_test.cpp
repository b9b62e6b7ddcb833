#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

TEST_CASE("a child who refuses after two teeth keeps two sealants and two that were stopped",
          "[case-42]") {
  const auto all = occlusalOf({16, 46, 17, 47});
  Chair chair(all);
  chair.place(occlusalOf({16, 46}));
  const std::vector refused{toothAt(17), toothAt(47)};
  chair.protocol.stop(refused);
  CHECK(chair.protocol.next() == Next::placed);
  CHECK(chair.next(17) == Next::stopped);
  CHECK(countsAsSealant(chair.summary(16)));
  CHECK(countsAsSealant(chair.summary(46)));
  CHECK(chair.summary(17).attempt == Attempt::stoppedBeforeSealant);
  CHECK_FALSE(countsAsSealant(chair.summary(47)));
}

TEST_CASE("a tooth that was etched but not sealed keeps its etch in the record", "[case-43]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  REQUIRE(chair.etch(teeth, 21s));
  chair.protocol.stop(std::vector{toothAt(16)});
  const auto record = chair.summary(16);
  CHECK(record.attempt == Attempt::stoppedBeforeSealant);
  CHECK(record.etches == 1);
  CHECK(record.etched == 21000ms);
  CHECK(record.check == StepResult::notAchieved);
  // A new field may try again.
  CHECK(Chair(teeth).etch(teeth));
}

TEST_CASE("sealant that was never cured through is stopped before cure") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  chair.protocol.stop(std::vector{toothAt(16)});
  CHECK(chair.summary(16).attempt == Attempt::stoppedBeforeCure);
}

TEST_CASE("sealant that was cleared away is stopped before sealant") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCure(teeth);
  chair.wet({toothAt(16)});
  chair.protocol.stop(std::vector{toothAt(16)});
  CHECK(chair.summary(16).attempt == Attempt::stoppedBeforeSealant);
}

TEST_CASE("sealant that was cured but never checked is not achieved") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.readyToCheck(teeth);
  SECTION("stopped at once") {}
  SECTION("wet at the check") {
    chair.wet({toothAt(16)});
  }
  SECTION("wet again while adding") {
    chair.wet({toothAt(16)});
    chair.readyToCure(teeth);
    chair.wet({toothAt(16)});
    CHECK(chair.at(16).etchReason == EtchReason::wetWhenAdding);
  }
  chair.protocol.stop(std::vector{toothAt(16)});
  CHECK(chair.summary(16).attempt == Attempt::notAchieved);
  CHECK(chair.summary(16).cures == 1);
}

TEST_CASE("stopping leaves a placed tooth placed") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.place(teeth);
  chair.protocol.stop(std::vector{toothAt(16)});
  CHECK(chair.next(16) == Next::placed);
}

TEST_CASE("a placement sums up what the field and the steps recorded") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.field.assistant = chair.ids.make<gk::base::MemberId>();
  chair.field.fourHanded = false;
  chair.place(teeth);
  const auto placed = chair.summary(16, PlacementType::reseal);
  CHECK(placed.child == chair.field.child);
  CHECK(placed.day == chair.field.day);
  CHECK(placed.field == chair.fieldId);
  CHECK(placed.tooth == toothAt(16));
  CHECK(placed.placedBy == chair.hygienist);
  CHECK(placed.assistant == chair.field.assistant);
  CHECK(placed.isolation == Isolation::rollsAndCheekPads);
  CHECK_FALSE(placed.fourHanded);
  CHECK(placed.etchant == chair.field.etchant);
  CHECK(placed.etched == 20000ms);
  CHECK(placed.frosty);
  CHECK(placed.check == StepResult::passed);
}

TEST_CASE("repairs and interim covers are not counted as sealants") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  chair.place(teeth);
  CHECK(countsAsSealant(chair.summary(16, PlacementType::fresh)));
  CHECK(countsAsSealant(chair.summary(16, PlacementType::reseal)));
  CHECK(countsAsSealant(chair.summary(16, PlacementType::replacesInterim)));
  CHECK_FALSE(countsAsSealant(chair.summary(16, PlacementType::repair)));
  CHECK_FALSE(countsAsSealant(chair.summary(16, PlacementType::interim)));
}

TEST_CASE("varnish waits until every chosen tooth was placed or stopped", "[case-49]") {
  const auto teeth = occlusalOf({16});
  Chair chair(teeth);
  Screening screening{.child = chair.field.child,
                      .day = chair.field.day,
                      .untreatedDecay = Tri::no,
                      .treatedDecay = Tri::no,
                      .urgency = Urgency::none,
                      .note = {},
                      .teeth = {{.tooth = toothAt(16),
                                 .presence = Presence::erupted,
                                 .occlusal = {Condition::sound, Origin::notSealed},
                                 .decision = Decision::seal,
                                 .toSeal = occlusal},
                                {.tooth = toothAt(17), .presence = Presence::unerupted}}};
  const auto early = checkVarnishOrder(screening, {});
  REQUIRE_FALSE(early);
  CHECK(early.error().code == ErrorCode::ruleVarnish);
  chair.protocol.stop(std::vector{toothAt(16)});
  CHECK(checkVarnishOrder(screening, std::vector{chair.summary(16)}));
}
