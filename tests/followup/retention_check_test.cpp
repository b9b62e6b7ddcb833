#include "checks.h"
#include "followup/display_names.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::followup;
using namespace gk::followup::test;

namespace {

const auto placed = day(2025, 11, 18);
const auto checked = day(2026, 11, 17);

bool stands(const RetentionCheck& check, int iso = 36) {
  const auto result = checkRetention(check, placement(iso), placed, checked);
  if (!result) {
    CHECK(result.error().code == base::ErrorCode::ruleCheck);
    CHECK_FALSE(result.error().detail.empty());
  }
  return result.has_value();
}

} // namespace

TEST_CASE("A check takes a result for each sealed surface and for no other") {
  CHECK(stands(check(Held::whole, Held::whole)));
  CHECK(stands(check(Held::whole, Held::notSealed, Held::whole), 16));
  CHECK_FALSE(stands(check(Held::whole)));
  CHECK_FALSE(stands(check(Held::notSealed, Held::whole)));
  CHECK_FALSE(stands(check(Held::whole, Held::whole, Held::lost)));
  CHECK_FALSE(stands(check(Held::notSealed)));
}

TEST_CASE("A check belongs to a completed placement of the same child and comes after it") {
  const auto look = check(Held::whole, Held::whole);
  CHECK(checkRetention(look, placement(36), checked, checked));
  CHECK_FALSE(checkRetention(look, placement(36), checked, placed));
  auto other = placement(36);
  other.child = id<roster::ChildId>(99);
  CHECK_FALSE(checkRetention(look, other, placed, checked));
  auto stopped = placement(36);
  stopped.attempt = chairside::Attempt::stoppedBeforeCure;
  CHECK_FALSE(checkRetention(look, stopped, placed, checked));
}

TEST_CASE("The tooth is as good as its worst surface that could be judged") {
  CHECK(check(Held::whole, Held::whole).tooth() == Held::whole);
  CHECK(check(Held::whole, Held::part).tooth() == Held::part);
  CHECK(check(Held::lost, Held::part).tooth() == Held::lost);
  CHECK(check(Held::cannotAssess, Held::lost).tooth() == Held::lost);
  CHECK(check(Held::cannotAssess, Held::cannotAssess).tooth() == Held::cannotAssess);
  CHECK(check(Held::notSealed).tooth() == Held::cannotAssess);
}

TEST_CASE("A triggered check says what prompted it", "[case-457]") {
  auto look = check(Held::whole, Held::whole);
  const auto standsAfter = [&](int months) {
    return checkRetention(look, placement(36), placed, placed.plusMonths(months)).has_value();
  };
  look.kind = CheckKind::shortTermTriggered;
  CHECK_FALSE(standsAfter(2));
  look.note = "  ";
  CHECK_FALSE(standsAfter(2));
  look.note = "the light read low all week";
  CHECK(standsAfter(2));
  look.kind = CheckKind::shortTermSample; // of a sample nothing is asked
  look.note.clear();
  CHECK(standsAfter(2));
}

TEST_CASE("In the one-year window a look is the one-year check, whatever prompted it",
          "[case-458]") {
  auto look = check(Held::whole, Held::whole);
  look.note = "the light read low all week";
  for (const auto kind : {CheckKind::shortTermTriggered, CheckKind::shortTermSample}) {
    look.kind = kind;
    for (const int months : {8, 9, 12, 15, 16}) {
      INFO(months);
      const bool isInWindow = months >= 9 && months <= 15;
      CHECK(checkRetention(look, placement(36), placed, placed.plusMonths(months)).has_value() ==
            !isInWindow);
    }
  }
  look.kind = CheckKind::longTerm;
  CHECK(stands(look));
}

TEST_CASE("A check because a loss was reported is one at every age, and needs no words",
          "[case-524]") {
  auto look = check(Held::lost, Held::whole);
  look.kind = CheckKind::reportedLoss;
  look.action = CheckAction::resealToday;
  for (const int months : {0, 1, 8, 9, 12, 15, 16, 40}) {
    INFO(months);
    CHECK(checkRetention(look, placement(36), placed, placed.plusMonths(months)).has_value());
  }
  CHECK(base::nameOf(look.kind) == "reported loss");
  CHECK(base::displayName(look.kind) == "reported loss");
}

TEST_CASE("A band over the buccal pit leaves the occlusal result standing", "[case-39]") {
  auto look = check(Held::whole, Held::cannotAssess);
  CHECK_FALSE(stands(look)); // no reason yet
  look.why = CannotAssess::banded;
  CHECK(stands(look));
  CHECK(look.tooth() == Held::whole);
}

TEST_CASE("Of two occlusal pits one kept and one lost is part", "[case-40]") {
  // One occlusal result for the surface: the examiner calls it part, and the tooth follows.
  auto look = check(Held::part, Held::notSealed, Held::whole);
  look.lift = LiftTest::held;
  look.action = CheckAction::repairToday;
  CHECK(stands(look, 16));
  CHECK(look.tooth() == Held::part);
}

TEST_CASE("A tooth filled or crowned or gone since is not a lost sealant", "[case-58]") {
  auto look = check(Held::cannotAssess, Held::cannotAssess);
  look.why = GENERATE(CannotAssess::restoredOver, CannotAssess::crowned, CannotAssess::extracted);
  look.health = ToothHealth::restored;
  CHECK(stands(look));
  CHECK(look.tooth() == Held::cannotAssess);
}

TEST_CASE("A filling over the sealant shows in the health of the tooth", "[case-58]") {
  auto look = check(Held::cannotAssess, Held::whole);
  look.why = CannotAssess::restoredOver;
  CHECK_FALSE(stands(look));
  look.health = ToothHealth::restored;
  CHECK(stands(look));
}

TEST_CASE("No surface of a tooth that is crowned or gone is judged", "[case-58]") {
  auto look = check(Held::cannotAssess, Held::lost);
  look.why = GENERATE(CannotAssess::crowned, CannotAssess::extracted);
  look.health = ToothHealth::restored;
  CHECK_FALSE(stands(look));
}

TEST_CASE("A reason goes with a surface that could not be assessed and only with one") {
  auto look = check(Held::whole, Held::whole);
  look.why = CannotAssess::childUnable;
  CHECK_FALSE(stands(look));
}

TEST_CASE("Only primary teeth are shed") {
  auto look = check(Held::cannotAssess, Held::cannotAssess);
  look.why = CannotAssess::shed;
  CHECK_FALSE(stands(look));
  auto primary = check(Held::cannotAssess);
  primary.why = CannotAssess::shed;
  CHECK(stands(primary, 75));
}

TEST_CASE("A part that lifts is a reseal or waits and never a repair today", "[case-59]") {
  auto look = check(Held::part, Held::whole);
  look.lift = LiftTest::lifted;
  for (auto action : {CheckAction::resealToday, CheckAction::refer, CheckAction::watch,
                      CheckAction::repairNext}) {
    look.action = action;
    CHECK(stands(look));
  }
  for (auto action : {CheckAction::repairToday, CheckAction::none}) {
    look.action = action;
    CHECK_FALSE(stands(look));
  }
}

TEST_CASE("A part that holds is a repair and never a reseal", "[case-59]") {
  auto look = check(Held::part, Held::whole);
  look.action = CheckAction::repairToday;
  CHECK_FALSE(stands(look)); // not before the lift test
  look.lift = LiftTest::held;
  CHECK(stands(look));
  look.action = CheckAction::resealToday;
  CHECK_FALSE(stands(look));
}

TEST_CASE("A lost sealant is resealed and not repaired", "[case-59]") {
  auto look = check(Held::lost, Held::lost);
  look.action = CheckAction::resealToday;
  CHECK(stands(look));
  look.action = CheckAction::repairToday;
  CHECK_FALSE(stands(look));
  look.action = CheckAction::none;
  CHECK(stands(look));
  look.lift = LiftTest::held;
  CHECK_FALSE(stands(look));
}

TEST_CASE("A whole sealant needs no new material") {
  auto look = check(Held::whole, Held::whole);
  look.action =
      GENERATE(CheckAction::repairToday, CheckAction::resealToday, CheckAction::repairNext);
  look.lift = LiftTest::held;
  CHECK_FALSE(stands(look));
}

TEST_CASE("A cavitated tooth is referred and not sealed") {
  auto look = check(Held::lost, Held::lost);
  look.health = ToothHealth::cavitated;
  look.action = CheckAction::resealToday;
  CHECK_FALSE(stands(look));
  look.action = CheckAction::refer;
  CHECK(stands(look));
}

TEST_CASE("The one-year window runs from nine to fifteen months by the calendar") {
  const Window year;
  CHECK_FALSE(isWithin(year, day(2025, 11, 18), day(2026, 8, 17)));
  CHECK(isWithin(year, day(2025, 11, 18), day(2026, 8, 18)));
  CHECK(isWithin(year, day(2025, 11, 18), day(2027, 2, 18)));
  CHECK_FALSE(isWithin(year, day(2025, 11, 18), day(2027, 2, 19)));
  CHECK(isWithin(year, day(2025, 5, 31), day(2026, 2, 28)));
  CHECK(isWithin({1, 2}, day(2026, 10, 1), day(2026, 11, 17)));
}

TEST_CASE("A repair has its own clock and leaves the original's running", "[case-60]") {
  const auto original = day(2025, 11, 18);
  const auto repair = day(2026, 10, 15);
  CHECK(isWithin(Window{}, original, checked));
  CHECK_FALSE(isWithin(Window{}, repair, checked));
  CHECK(isWithin(Window{}, repair, day(2027, 10, 15)));
  auto repaired = placement(36);
  CHECK(chairside::countsAsSealant(repaired));
  repaired.type = chairside::PlacementType::repair; // first placements only
  CHECK_FALSE(chairside::countsAsSealant(repaired));
}
