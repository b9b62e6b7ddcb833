#include "reports/records/inputs.h"
#include "support/clinic.h"

// What is recorded at the chair beside the steps: alerts read, the history, why a sealant is placed
// once more, the surface and the bite, a varnish left out.
using namespace gk;
using base::ErrorCode;
using chairside::DayEnd;
using chairside::Decision;
using dentition::toothAt;
using test::codeOf;
using test::must;

namespace {

struct Records {
  test::Clinic clinic;
  roster::ChildId child = clinic.child("Mina");

  [[nodiscard]] chairside::Seating seating() const {
    return {
        child, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}};
  }
  /// A day a year later, with the child seated and so checked: tooth 16 is to be resealed.
  void nextYear(followup::CheckAction action) {
    clinic.standardVisit(child);
    clinic.clock.advance(std::chrono::hours(24));
    clinic.day = must(clinic.session.openDay(
        clinic.by,
        {clinic.term, clinic.school, must(base::Date::parse("2026-11-18")), 1, {}, false}));
    must(clinic.session.enterReading(
        clinic.by, {clinic.light, clinic.clock.now().date(), {1040}, true, "M-1", true}));
    clinic.seat(child);
    for (const auto& earlier : must(clinic.session.earlierPlacements(child, clinic.day))) {
      const auto& placement = earlier.placement;
      if (placement.value.tooth != toothAt(16)) continue;
      followup::RetentionCheck check{.placement = placement.id,
                                     .child = child,
                                     .day = clinic.day,
                                     .kind = followup::CheckKind::opportunistic,
                                     .occlusal = followup::Held::part,
                                     .lingual = followup::Held::whole,
                                     .lift = action == followup::CheckAction::resealToday
                                                 ? followup::LiftTest::lifted
                                                 : followup::LiftTest::held,
                                     .action = action,
                                     .note = {}};
      must(clinic.session.enterCheck(clinic.by, check));
    }
  }
};

} // namespace

TEST_CASE("A recheck lets its own tooth be resealed and no other", "[case-90]") {
  Records chair;
  chair.nextYear(followup::CheckAction::resealToday);
  auto& clinic = chair.clinic;
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(chair.child, {26}))) ==
        ErrorCode::ruleTooth);
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(chair.child, {16, 46}))) ==
        ErrorCode::ruleTooth);
  must(clinic.session.isolate(clinic.by, clinic.field(chair.child, {16})));
}

TEST_CASE("A sealant of another day is repaired with the full etch", "[case-92]") {
  Records chair;
  chair.nextYear(followup::CheckAction::repairToday);
  auto& clinic = chair.clinic;
  auto field = clinic.field(chair.child, {16});
  field.adding = true;
  CHECK(codeOf(clinic.session.isolate(clinic.by, field)) == ErrorCode::ruleTooth);
  field.adding = false;
  const auto id = must(clinic.session.isolate(clinic.by, field));
  CHECK(codeOf(clinic.session.enterStep(
            clinic.by, clinic.run(id, chairside::Step::etch, {16}, 12))) == ErrorCode::ruleStep);
  must(clinic.session.enterStep(clinic.by, clinic.run(id, chairside::Step::etch, {16}, 20)));
}

TEST_CASE("A sealant of this visit may be added to with the shorter etch", "[case-92]") {
  Records chair;
  auto& clinic = chair.clinic;
  clinic.seat(chair.child);
  clinic.screenFour(chair.child);
  clinic.sealAll(must(clinic.session.isolate(clinic.by, clinic.field(chair.child, {16}))), {16});
  auto field = clinic.field(chair.child, {16});
  field.adding = true;
  const auto id = must(clinic.session.isolate(clinic.by, field));
  must(clinic.session.enterStep(clinic.by, clinic.run(id, chairside::Step::etch, {16}, 10)));
}

TEST_CASE("No one is seated before every alert was read", "[case-94]") {
  Records chair;
  auto& clinic = chair.clinic;
  const auto latex = must(clinic.session.enterFlag(
      clinic.by,
      {chair.child, roster::FlagKind::latexAllergy, roster::FlagAction::stop, "rash", false, {}}));
  const auto refused = clinic.session.seat(clinic.by, chair.seating());
  CHECK(codeOf(refused) == ErrorCode::ruleAllergy);
  CHECK(refused.error().detail.find("gloves") != std::string::npos);
  auto heard = chair.seating();
  heard.heard = {latex};
  must(clinic.session.seat(clinic.by, heard));
}

TEST_CASE("What changed since the form is said at the seat, with its alert, in one act",
          "[case-94]") {
  Records chair;
  auto& clinic = chair.clinic;
  auto seating = chair.seating();
  seating.historyUnchanged = false;
  CHECK(codeOf(clinic.session.seat(clinic.by, seating)) == ErrorCode::ruleReason);
  const roster::MedicalFlag acrylate{chair.child,
                                     roster::FlagKind::acrylateAllergy,
                                     roster::FlagAction::stop,
                                     "the mother by phone",
                                     false,
                                     {}};
  CHECK(codeOf(clinic.session.seat(clinic.by, chair.seating(), {acrylate})) ==
        ErrorCode::ruleReason);
  CHECK(must(clinic.session.flags(chair.child)).empty());
  seating.changed = "allergy to resin since the summer";
  must(clinic.session.seat(clinic.by, seating, {acrylate}));
  CHECK(must(clinic.session.flags(chair.child)).size() == 1);
  clinic.screenFour(chair.child);
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(chair.child, {16}))) ==
        ErrorCode::ruleAllergy);
}

TEST_CASE("Why a sealant is placed once more is said at the screening", "[case-95]") {
  Records chair;
  auto& clinic = chair.clinic;
  clinic.seat(chair.child);
  auto screening = clinic.fourSound(chair.child);
  screening.teeth[0].occlusal = {chairside::Condition::sealedPart, chairside::Origin::ours};
  screening.teeth[0].decision = Decision::reseal;
  CHECK(codeOf(clinic.session.screen(clinic.by, screening)) == ErrorCode::ruleReason);
  screening.teeth[0].resealWhy = chairside::ResealWhy::partGone;
  must(clinic.session.screen(clinic.by, screening));
  CHECK(must(clinic.session.screenings(chair.child)).front().value == screening);
}

TEST_CASE("Wiping, bite and a varnish left out are said before the visit ends", "[case-95]") {
  Records chair;
  auto& clinic = chair.clinic;
  clinic.seat(chair.child);
  chairside::AfterCure after{chair.child, clinic.day};
  CHECK(codeOf(clinic.session.enterAfterCure(clinic.by, after)) == ErrorCode::ruleStep);
  clinic.screenFour(chair.child);
  for (const auto& half : {std::vector{16, 46}, std::vector{26, 36}})
    clinic.sealAll(must(clinic.session.isolate(clinic.by, clinic.field(chair.child, half))), half);
  chairside::DayOutcome outcome{chair.child, clinic.day, DayEnd::sealedComplete, {}};
  CHECK(codeOf(clinic.session.endVisit(clinic.by, outcome)) == ErrorCode::ruleOutcome);
  after.bite = chairside::Bite::notChecked;
  CHECK(codeOf(clinic.session.enterAfterCure(clinic.by, after)) == ErrorCode::ruleReason);
  after.bite = chairside::Bite::adjusted;
  must(clinic.session.enterAfterCure(clinic.by, after));
  CHECK(codeOf(clinic.session.endVisit(clinic.by, outcome)) == ErrorCode::ruleVarnish);
  outcome.varnishSkipped = "child declines";
  must(clinic.session.endVisit(clinic.by, outcome));
  CHECK(must(clinic.session.afterCures(chair.child, clinic.day)).back().value == after);
  CHECK(must(clinic.session.dayRecords(clinic.day)).outcomes.back().value == outcome);
}

TEST_CASE("What prompted a check is kept without a name, whatever face it comes from",
          "[case-486]") {
  Records chair;
  auto& book = chair.clinic.session;
  chair.clinic.standardVisit(chair.child);
  const auto placed = must(book.placements(chair.child)).front();
  followup::RetentionCheck check{.placement = placed.id,
                                 .child = chair.child,
                                 .day = chair.clinic.day,
                                 .kind = followup::CheckKind::shortTermTriggered,
                                 .note = "the mother of Mina called"};
  const auto whole = [&](dentition::Surface surface) {
    return placed.value.surfaces.has(surface) ? followup::Held::whole : followup::Held::notSealed;
  };
  check.occlusal = whole(dentition::Surface::occlusal);
  check.buccal = whole(dentition::Surface::buccalPit);
  check.lingual = whole(dentition::Surface::lingualGroove);
  CHECK(codeOf(book.enterCheck(chair.clinic.by, check)) == ErrorCode::textMalformed);
  CHECK(must(book.checks(chair.child)).empty());
  check.note = "a loss was reported by phone";
  must(book.enterCheck(chair.clinic.by, check));
  REQUIRE(must(book.checks(chair.child)).size() == 1);
  // Of a reported loss nothing more has to be said, and it is kept as one.
  check.kind = followup::CheckKind::reportedLoss;
  check.note.clear();
  must(book.enterCheck(chair.clinic.by, check));
  REQUIRE(must(book.checks(chair.child)).size() == 2);
  CHECK(must(book.checks(chair.child)).back().value.kind == followup::CheckKind::reportedLoss);
  check.kind = followup::CheckKind::shortTermTriggered;
  // Names that are locked cannot be held against it.
  check.note = "a light that read low";
  book.lock();
  CHECK(codeOf(book.enterCheck(chair.clinic.by, check)) == ErrorCode::vaultLocked);
}
