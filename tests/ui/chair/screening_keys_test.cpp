#include "ui/fixtures/later_fixture.h"
#include "ui/mouth/mouth_map.h"

#include <algorithm>

// What one key of a screening does, and what takes it back.

using namespace gk;
using namespace Qt::Literals::StringLiterals;
using chairside::Condition;
using chairside::Decision;
using dentition::Surface;
using dentition::SurfaceSet;
using dentition::toothAt;
using test::must;

namespace {

struct Screened : test::Chair {
  roster::ChildId child = clinic.child("Pia", "Lindenholt");

  Screened() { seat(child); }
  [[nodiscard]] dentition::Tooth here() const {
    return page->findChild<ui::MouthMap*>()->selected();
  }
  chairside::ToothFinding row(int iso) {
    const auto screenings = must(clinic.session.screenings(child));
    const auto& teeth = screenings.back().value.teeth;
    const auto found = std::ranges::find(teeth, toothAt(iso), &chairside::ToothFinding::tooth);
    REQUIRE(found != teeth.end());
    return *found;
  }
};

} // namespace

TEST_CASE("Undo in a screening goes back to the tooth and the surface of the key", "[case-99]") {
  Screened chair;
  chair.press("Z");
  chair.press("S");
  CHECK(chair.here() == toothAt(26));
  chair.press("LC"); // a slip on one surface
  CHECK(chair.here() == toothAt(36));
  chair.press("U");
  CHECK(chair.here() == toothAt(26));
  CHECK(chair.text("screeningCursor").contains(u"occlusal only"_s));
  chair.press("S"); // the answer that was meant, where it was meant
  chair.press("SS444");
  chair.press(Qt::Key_Return);
  CHECK(chair.row(26).occlusal.condition == Condition::sound);
  CHECK(chair.row(26).lingual.condition == Condition::notLookedAt);
  CHECK(chair.row(36).occlusal.condition == Condition::sound);
}

TEST_CASE("Every answer goes on to the next tooth alike", "[case-99]") {
  for (const char* answer :
       {"S", "E", "C", "F", "K", "G", "D", "A", "Y", "LS", "LE", "LLS", "M1", "M2", "M3", "M5"}) {
    Screened chair;
    INFO(answer);
    REQUIRE(chair.here() == toothAt(16));
    chair.press(answer);
    CHECK(chair.here() == toothAt(26));
    chair.press("U");
    CHECK(chair.here() == toothAt(16));
  }
}

TEST_CASE("One surface sealed stays one surface when the next tooth is answered", "[case-99]") {
  Screened chair;
  chair.press("Z");
  chair.press("LS"); // its chewing surface alone
  chair.press("SSS444");
  CHECK(chair.text("pauseLine").contains(u"upper right first molar, 3 (occlusal)"_s));
  chair.press(Qt::Key_Return);
  CHECK(chair.row(16).toSeal == SurfaceSet{Surface::occlusal});
  CHECK(chair.row(16).lingual.condition == Condition::notLookedAt);
}

TEST_CASE("A tooth partly up comes round again until its surfaces were looked at", "[case-99]") {
  Screened chair;
  chair.press("ZASSS");
  CHECK(chair.here() == toothAt(16));
  chair.press("444");
  chair.press(Qt::Key_Return);
  CHECK(chair.message().contains(u"no finding yet for the upper right first molar"_s));
  chair.press("M2S"); // gum over its companion: a word on the tooth is of what is seen
  chair.press(Qt::Key_Return);
  CHECK(chair.row(16).occlusal.condition == Condition::sound);
  CHECK(chair.row(16).lingual.condition == Condition::notLookedAt);
}

TEST_CASE("A charted cavity answers untreated decay and a person can answer again", "[case-103]") {
  Screened chair;
  chair.press("ZC");
  CHECK(chair.text("screeningQuestions").contains(u"Untreated decay: YES (a cavity is charted"_s));
  chair.press("U");
  CHECK(chair.text("screeningQuestions").contains(u"Untreated decay: 4 no"_s));
  chair.press("CSSS");
  chair.press("45"); // treated decay, urgency
  chair.press("Q");
  CHECK(chair.text("screeningQuestions").contains(u"Untreated decay: 4 no"_s));
  chair.press("545");
  chair.press(Qt::Key_Return);
  const auto screening = must(chair.clinic.session.screenings(chair.child)).back().value;
  CHECK(screening.untreatedDecay == chairside::Tri::yes);
  CHECK(screening.treatedDecay == chairside::Tri::no);
}

TEST_CASE("The question about the age stays until it was read", "[case-103]") {
  Screened chair;
  chair.press("SSSS"); // the first molars
  chair.press("SD");   // a second molar, at seven years, and on
  CHECK(chair.text("screeningAge").contains(u"upper right second molar"_s));
  chair.press("DD444");
  chair.press(Qt::Key_Return);
  CHECK(chair.message().contains(u"read the age question first"_s));
  CHECK(must(chair.clinic.session.screenings(chair.child)).empty());
  chair.press("R");
  CHECK_FALSE(chair.shows("screeningAge"));
  chair.press(Qt::Key_Return);
  CHECK(must(chair.clinic.session.screenings(chair.child)).size() == 1);
}

TEST_CASE("A stray Enter never says that a sealant held when it was lifted at", "[case-103]") {
  test::Later chair(60);
  chair.seat(chair.wren);
  chair.press("65"); // chewing surface in part, groove whole
  REQUIRE(chair.text("askQuestion").startsWith(u"Try to lift the remaining sealant"_s));
  chair.press(Qt::Key_Return);
  CHECK(chair.shows("askQuestion"));
  CHECK(chair.text("recheckAnswers").contains(u"lift test: not tested"_s));
  chair.press("1");
  CHECK(chair.text("recheckAnswers").contains(u"lift test: holds"_s));
}

TEST_CASE("Reseal today arrives at the screening as decided, for the surfaces that were lost",
          "[case-103]") {
  test::Later chair(60);
  chair.seat(chair.wren);
  chair.press("45"); // upper right: chewing surface lost, groove whole
  CHECK(chair.text("recheckAnswers").contains(u"RESEAL TODAY"_s));
  chair.press(Qt::Key_Return);
  chair.press("888");
  REQUIRE(chair.shows("screeningPanel"));
  chair.press("Z444");
  CHECK(chair.text("pauseLine") == u"Sealing 1: reseal upper right first molar, 3 (occlusal)."_s);
  chair.press(Qt::Key_Return);
  const auto screening = must(chair.clinic.session.screenings(chair.wren)).back().value;
  for (const auto& finding : screening.teeth)
    if (finding.tooth == toothAt(16)) {
      CHECK(finding.decision == Decision::reseal);
      CHECK(finding.toSeal == SurfaceSet{Surface::occlusal});
    }
}

TEST_CASE("A sealant of today on the wrong tooth is moved at the chair with a reason",
          "[case-102]") {
  Screened chair;
  chair.screenFour();
  chair.sealHalf();
  chair.sealHalf();
  REQUIRE(chair.shows("finishPanel"));
  chair.press("M");
  chair.press(Qt::Key_Return); // a stray one chooses none
  REQUIRE(chair.text("askQuestion").startsWith(u"Which of today's sealants"_s));
  chair.press("1");
  const auto before = must(chair.clinic.session.placements(chair.child)).front();
  chair.type(u"2"_s); // the upper right second molar
  CHECK(chair.text("askQuestion").contains(u"how was that found?"_s));
  chair.type(u"seen at the read-back"_s);
  for (const auto& row : must(chair.clinic.session.placements(chair.child)))
    if (row.id == before.id) {
      CHECK(row.value.tooth == toothAt(17));
      CHECK(row.stamp.reason == "seen at the read-back");
    }
  CHECK(chair.text("finishSealed").contains(u"Upper right second molar"_s));
}

TEST_CASE("A medical stop is decided at the chair by who may, in words", "[case-104]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  must(chair.clinic.session.enterFlag(
      chair.clinic.by,
      {child, roster::FlagKind::acrylateAllergy, roster::FlagAction::stop, "swelling", false, ""}));
  REQUIRE(chair.page->take(child, chair.clinic.day));
  REQUIRE(chair.shows("decideStopButton"));
  auto setup = chair.acting.now();
  setup.author = chair.clinic.assistant;
  chair.acting.change(setup);
  chair.press(Qt::Key_Backspace);
  CHECK_FALSE(chair.shows("askLine")); // the words would be refused, so they are not asked for
  CHECK(must(chair.clinic.session.flags(child)).front().value.resolved == false);
  setup.author = chair.clinic.hygienist;
  chair.acting.change(setup);
  chair.press(Qt::Key_PageDown); // the alert is read
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("screeningPanel"));
  CHECK(chair.shows("chairStop"));
  REQUIRE(chair.shows("decideStopButton"));
  chair.press(Qt::Key_Backspace);
  chair.type(u"mother by phone: it was a bee, no resin"_s);
  CHECK_FALSE(chair.shows("chairStop"));
  // Its key keeps its place, so that no other moves.
  CHECK_FALSE(chair.page->findChild<QPushButton*>(u"decideStopButton"_s)->isEnabled());
  const auto flag = must(chair.clinic.session.flags(child)).front().value;
  CHECK(flag.resolved);
  CHECK(flag.decided == "mother by phone: it was a bee, no resin");
}
