#include "reports/records/inputs.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/keys/cap_button.h"

// What goes wrong while a child is being sealed, keyed as a person keys it.

using namespace gk;
using namespace Qt::Literals::StringLiterals;
using chairside::Attempt;
using chairside::EtchReason;
using chairside::Step;
using test::must;

namespace {

/// A child with four first molars to seal; the right half comes first.
struct Placing : test::Chair {
  roster::ChildId child = clinic.child("Teodor", "Finch-Abbey");

  void begin() {
    seat(child);
    screenFour();
  }
  std::vector<chairside::Placement> placements() {
    std::vector<chairside::Placement> all;
    for (const auto& row : must(clinic.session.placements(child)))
      all.push_back(row.value);
    return all;
  }
  std::vector<base::Recorded<chairside::StepRun>> steps(Step step) {
    std::vector<base::Recorded<chairside::StepRun>> found;
    for (const auto& run : must(clinic.session.dayRecords(clinic.day)).steps)
      if (run.value.step == step) found.push_back(run);
    return found;
  }
  void flag(roster::FlagKind kind, const char* detail) {
    must(clinic.session.enterFlag(clinic.by,
                                  {child, kind, roster::FlagAction::stop, detail, false, ""}));
  }
  kit::LotId lot(kit::MaterialKind kind, const char* name, const char* number,
                 kit::ContentSet contains) {
    return must(
        clinic.session.enterLot(clinic.by, {kind, name, number, base::Date::of(2027, 4, 30).value(),
                                            base::Seconds(20), contains, false, ""}));
  }
};

} // namespace

TEST_CASE("A child who bolts after the etch leaves it on record and may come back for another try",
          "[case-43]") {
  Placing chair;
  chair.begin();
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  chair.press("X1"); // gone before any sealant
  chair.press("2");  // and before the rinse
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishState").contains(u"SCREENED, NOT TREATED"_s));
  chair.press(Qt::Key_Return);
  auto rows = chair.placements();
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].attempt == Attempt::stoppedBeforeSealant);
  CHECK(rows[0].etches == 1);

  chair.seat(chair.child);
  REQUIRE(chair.shows("finishPanel"));
  chair.press("R");
  REQUIRE(chair.shows("fieldPanel"));
  CHECK(chair.text("fieldTitle") == u"Right side: keep dry"_s);
  chair.sealHalf();
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishState").contains(u"SEALED, UNFINISHED"_s)); // the left half is left
  chair.press("5V");
  chair.press(Qt::Key_Return);
  rows = chair.placements();
  REQUIRE(rows.size() == 4);
  CHECK(rows[2].attempt == Attempt::complete);
  CHECK(rows[3].attempt == Attempt::complete);
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  REQUIRE(records.outcomes.size() == 1);
  CHECK(records.outcomes.front().value.end == chairside::DayEnd::sealedUnfinished);
}

TEST_CASE("A light changed within a child is named by each cure and eyes are reminded of again",
          "[case-45]") {
  Placing chair;
  chair.begin();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  const auto reminder = [&] { return chair.page->findChild<ui::TimerView*>()->note(); };
  CHECK(reminder().contains(u"eye protection"_s));
  chair.cure();
  CHECK(reminder().isEmpty());
  chair.press("K2"); // light L-3
  CHECK(chair.page->findChild<ui::CapButton*>(u"lightButton"_s)->sub() == u"L-3"_s);
  CHECK(reminder().contains(u"eye protection"_s));
  chair.cure();
  CHECK(reminder().isEmpty());
  const auto cures = chair.steps(Step::cure);
  REQUIRE(cures.size() == 2);
  CHECK(cures[0].value.light == chair.clinic.light);
  CHECK(cures[1].value.light == chair.clinic.spare);
}

TEST_CASE("Wet before the sealant asks for 20 seconds of etch and adding to one for 10",
          "[case-47]") {
  Placing chair;
  chair.begin();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press("W");
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("W"); // at the check: sealant is on and cured
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(10);
  chair.press(Qt::Key_Space);
  CHECK(chair.text("fieldGuide").contains(u"FROSTY?"_s)); // 10 s were enough
  const auto etches = chair.steps(Step::etch);
  REQUIRE(etches.size() == 3);
  CHECK(etches[1].value.etchReason == EtchReason::wetBeforeSealant);
  CHECK(etches[1].value.target == base::Seconds(20));
  CHECK(etches[2].value.etchReason == EtchReason::wetWhenAdding);
  CHECK(etches[2].value.target == base::Seconds(10));
}

TEST_CASE("A latex stop is said before the field is dry and does not forbid resin", "[case-48]") {
  Placing chair;
  chair.flag(roster::FlagKind::latexAllergy, "rash from gloves");
  REQUIRE(chair.page->take(chair.child, chair.clinic.day));
  CHECK(chair.text("identityStop") == u"ALLERGY: latex, rash from gloves"_s);
  CHECK(chair.text("identityAsked").contains(u"from the first glove on"_s));
  chair.press(Qt::Key_PageDown);
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  chair.screenFour();
  CHECK(chair.text("fieldGuide").startsWith(u"LATEX ALLERGY: latex-free gloves"_s));
  auto setup = chair.acting.now();
  setup.sealant =
      chair.lot(kit::MaterialKind::sealantLightCure, "Resin Moss", "RM-11", {kit::Contains::latex});
  chair.acting.change(setup);
  chair.press(Qt::Key_Return);
  CHECK(chair.message().contains(
      u"edical alert: latex allergy; Resin Moss lot RM-11 contains latex"_s));
  CHECK(must(chair.clinic.session.fields(chair.child, chair.clinic.day)).empty());
  chair.press("L1"); // Resin Fern
  chair.sealHalf();
  CHECK(chair.placements().size() == 2);
}

TEST_CASE("A rosin stop forbids that varnish and no other", "[case-48]") {
  Placing chair;
  chair.flag(roster::FlagKind::rosinReaction, "rash");
  const auto free =
      chair.lot(kit::MaterialKind::varnish, "Varnish Alder", "VA-0310", {kit::Contains::fluoride});
  chair.seat(chair.child);
  chair.press("ZDDDD444");
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishState")
            .contains(u"medical alert: rosin reaction"_s)); // before it is on the teeth
  chair.press("V");
  CHECK(must(chair.clinic.session.dayRecords(chair.clinic.day)).varnishes.empty());
  chair.press("L");
  CHECK(chair.text("askQuestion").contains(u"1 left out"_s));
  const auto options = chair.page->findChildren<QPushButton*>();
  for (auto* option : options)
    if (option->isVisible() && option->text().contains(u"VA-0310"_s)) option->click();
  chair.press("V");
  const auto varnishes = must(chair.clinic.session.dayRecords(chair.clinic.day)).varnishes;
  REQUIRE(varnishes.size() == 1);
  CHECK(varnishes[0].value.lot == free);
}

TEST_CASE("Varnish cannot come before the sealants, and where it is on already that is asked",
          "[case-49]") {
  Placing chair;
  chair.seat(chair.child);
  chair.press("ZSDDD444");
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  chair.press("V");
  CHECK(must(chair.clinic.session.dayRecords(chair.clinic.day)).varnishes.empty());
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.cure();
  chair.cure();
  chair.press("5");
  REQUIRE(chair.shows("finishPanel"));
  chair.press("V");
  CHECK(must(chair.clinic.session.dayRecords(chair.clinic.day)).varnishes.size() == 1);
  chair.press("E9S"); // one more tooth is found after all
  chair.press(Qt::Key_Return);
  chair.type(u"it is up"_s);
  REQUIRE(chair.shows("fieldPanel"));
  chair.press(Qt::Key_Return);
  CHECK(chair.text("askQuestion").startsWith(u"Varnish is already on"_s));
  chair.press("1");
  CHECK(must(chair.clinic.session.fields(chair.child, chair.clinic.day)).size() == 1);
  chair.press(Qt::Key_Return);
  chair.press("2");
  const auto fields = must(chair.clinic.session.fields(chair.child, chair.clinic.day));
  REQUIRE(fields.size() == 2);
  CHECK(fields[1].field.value.note == "varnish was on and was cleaned off first");
}

TEST_CASE("Two operators finish one child and each tooth has its own", "[case-50]") {
  Placing chair;
  const auto second = must(chair.clinic.session.enterMember(
      chair.clinic.by,
      {"Tamsin Quillbrook", "TQ", roster::Role::hygienist, "HY-00588",
       base::Date::of(2026, 12, 15).value(), roster::usualTasks(roster::Role::hygienist)}));
  chair.begin();
  chair.sealHalf();
  chair.press("O1"); // the operator from now on
  for (auto* option : chair.page->findChildren<QPushButton*>())
    if (option->isVisible() && option->text().contains(u"Tamsin Quillbrook"_s)) option->click();
  CHECK(chair.text("chairActing") == u"Operator TQ"_s);
  chair.sealHalf();
  const auto rows = chair.placements();
  REQUIRE(rows.size() == 4);
  CHECK(rows[1].placedBy == chair.clinic.hygienist);
  CHECK(rows[2].placedBy == second);
}

TEST_CASE("Who typed is kept apart from who did it", "[case-51]") {
  Placing chair;
  chair.begin();
  chair.sealHalf();
  chair.press("O31"); // no one types for her from now on
  chair.sealHalf();
  const auto rows = must(chair.clinic.session.placements(chair.child));
  REQUIRE(rows.size() == 4);
  CHECK(rows[0].stamp.by.author == chair.clinic.hygienist);
  CHECK(rows[0].stamp.by.recorder == chair.clinic.assistant);
  CHECK(rows[3].stamp.by.author == chair.clinic.hygienist);
  CHECK_FALSE(rows[3].stamp.by.recorder.has_value());
}

TEST_CASE("A material that sets by itself is never asked about a light", "[case-54]") {
  Placing chair;
  auto setup = chair.acting.now();
  setup.sealant = chair.clinic.selfCure;
  setup.light.reset();
  chair.acting.change(setup);
  chair.begin();
  CHECK_FALSE(chair.text("fieldKit").contains(u"light"_s, Qt::CaseInsensitive));
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  CHECK(chair.page->findChild<ui::TimerView*>()->note().isEmpty()); // no light, no eye shield
  CHECK(chair.text("fieldGuide").contains(u"sets by itself"_s));
  chair.press(Qt::Key_Space);
  REQUIRE(chair.page->isTiming());
  chair.run(60);
  chair.press("55");
  const auto rows = chair.placements();
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].attempt == Attempt::complete);
  CHECK_FALSE(rows[0].light.has_value());
  CHECK(rows[0].cures == 1);
  CHECK(rows[0].cured == base::Seconds(60));
}

TEST_CASE("A companion surface cured by itself makes two cures of one sealed tooth", "[case-55]") {
  Placing chair;
  chair.seat(chair.child);
  chair.press("ZSDDD444");
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.cure();
  CHECK(chair.shows("startTimerButton")); // not yet the check: one surface is still soft
  CHECK_FALSE(chair.shows("passButton"));
  chair.cure();
  REQUIRE(chair.shows("passButton"));
  chair.press("5");
  const auto rows = chair.placements();
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].cures == 2);
  CHECK(rows[0].surfaces.size() == 2);
  CHECK(chair.text("finishSealed").count(u": sealed"_s) == 1);
}

TEST_CASE("Once sealant has flowed an undo is a correction with its reason", "[case-56]") {
  Placing chair;
  chair.begin();
  chair.press(Qt::Key_Return);
  chair.press("U"); // the wrong half: no question
  CHECK(must(chair.clinic.session.fields(chair.child, chair.clinic.day)).empty());
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press("5"); // both teeth have sealant on
  REQUIRE(chair.steps(Step::flow).size() == 1);
  chair.press("U");
  CHECK(chair.text("askQuestion").contains(u"Sealant was already placed"_s));
  chair.press(Qt::Key_Escape);
  CHECK(chair.steps(Step::flow).size() == 1);
  chair.press("U");
  chair.type(u"no sealant yet, a slip of the key"_s);
  CHECK(chair.message() == u"Undone: Sealant placed, 2 teeth, Teodor F. (Shift+U: redo)"_s);
  CHECK(chair.steps(Step::flow).empty());
}

TEST_CASE("A clock set back in the middle of an etch moves neither the etch nor the order",
          "[case-21]") {
  Placing chair;
  chair.begin();
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(5);
  const auto then = chair.clinic.clock.now();
  chair.clinic.clock.setWall({base::Instant{then.at.utc - std::chrono::hours(3)}, then.offset});
  chair.run(15);
  CHECK(chair.message().contains(u"clock changed during a timed step"_s));
  chair.press(Qt::Key_Space);
  chair.run(10);
  chair.press("5");
  const auto etches = chair.steps(Step::etch);
  const auto dries = chair.steps(Step::dry);
  REQUIRE(etches.size() == 1);
  REQUIRE(dries.size() == 1);
  CHECK(etches[0].value.lasted == base::Seconds(20));
  CHECK(etches[0].stamp.sequence < dries[0].stamp.sequence);
  CHECK(must(chair.clinic.session.fields(chair.child, chair.clinic.day))[0].protocol.next() ==
        chairside::Next::flow);
}

TEST_CASE(
    "After one of two isolated teeth was contaminated the heading and the guide name it alone") {
  Placing chair;
  chair.begin();
  chair.press(Qt::Key_Return);
  CHECK(chair.text("fieldTitle") == u"Etch 2 teeth"_s);
  CHECK(chair.text("fieldGuide") == u"Start timer when etchant is on all teeth."_s);
  chair.etchToFrosty();
  CHECK(chair.text("fieldTitle") == u"Place sealant on 2 teeth"_s);
  chair.press("W1");
  CHECK(chair.text("fieldTitle") == u"Re-etch upper right first molar"_s);
  CHECK(chair.text("fieldGuide") == u"Start timer when etchant is on the upper right first molar. "
                                    "Keep the lower right dry."_s);
  chair.press(Qt::Key_Space);
  CHECK(chair.text("fieldGuide").endsWith(u"Keep the lower right dry."_s));
  chair.run(20);
  chair.press(Qt::Key_Space);
  CHECK(chair.text("fieldTitle") == u"Rinse upper right first molar"_s);
  chair.run(10);
  chair.press("5");
  CHECK(chair.text("fieldTitle") == u"Place sealant on 2 teeth"_s); // together again
  CHECK_FALSE(chair.text("fieldGuide").contains(u"Keep"_s));
}
