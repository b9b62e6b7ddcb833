#include "chairside/display_names.h"
#include "ui/fixtures/chair_fixture.h"

// What is found in a mouth, keyed as a person keys it, read back from the book.

using namespace gk;
using namespace Qt::Literals::StringLiterals;
using chairside::Condition;
using chairside::Decision;
using chairside::Enamel;
using chairside::Origin;
using chairside::Presence;
using dentition::Surface;
using dentition::SurfaceSet;
using test::must;

namespace {

/// A child in the chair with nothing said yet; the cursor is on the upper right first molar.
struct Seated : test::Chair {
  roster::ChildId child = clinic.child("Pia", "Lindenholt");

  explicit Seated(bool primaryTeeth = false) : Chair(primaryTeeth) { seat(child); }

  /// The three answers about the child, and Enter.
  void record(const char* answers = "444") {
    press(answers);
    press(Qt::Key_Return);
    INFO(message().toStdString());
    REQUIRE(must(clinic.session.screenings(child)).size() == 1);
  }
  chairside::ToothFinding row(int iso) {
    const auto screenings = must(clinic.session.screenings(child));
    REQUIRE_FALSE(screenings.empty());
    for (const auto& finding : screenings.back().value.teeth)
      if (finding.tooth == dentition::toothAt(iso)) return finding;
    FAIL("no finding of " << iso);
    return screenings.back().value.teeth.front();
  }
  [[nodiscard]] QString tile(const char* name) const {
    return page->findChild<QWidget*>(QString::fromLatin1(name))->accessibleName();
  }
  [[nodiscard]] bool offersSealing(int presses = 11) {
    bool offered = false;
    for (int i = 0; i < presses; ++i) {
      press("J");
      for (const auto* word :
           {": whole tooth. Decision: seal", ": whole tooth. Decision: glass ionomer sealant",
            ": whole tooth. Decision: repair", ": whole tooth. Decision: reseal"})
        offered = offered || text("screeningCursor").contains(QString::fromLatin1(word));
    }
    return offered;
  }
};

} // namespace

TEST_CASE("Of a tooth partly up the free surface is sealed and the covered one is not",
          "[case-26]") {
  Seated chair;
  chair.press("ZSSSA"); // the lower right one is partly up
  chair.press("M2");    // gum over its companion surface
  chair.press("LS");    // its chewing surface is sound
  chair.press("444");
  CHECK(chair.text("pauseLine").contains(u"lower right first molar, 30 (occlusal)"_s));
  chair.press(Qt::Key_Return);
  const auto found = chair.row(46);
  CHECK(found.presence == Presence::partlyErupted);
  CHECK(found.decision == Decision::seal);
  CHECK(found.toSeal == SurfaceSet{Surface::occlusal});
  CHECK(found.revisit);
  chair.press(Qt::Key_Return);
  const auto fields = must(chair.clinic.session.fields(chair.child, chair.clinic.day));
  REQUIRE(fields.size() == 1);
  CHECK(fields[0].protocol.find(dentition::toothAt(46))->surfaces == SurfaceSet{Surface::occlusal});
}

TEST_CASE("Under an operculum one waits or covers for now or seals to the edge, and looks again",
          "[case-27]") {
  const auto wanted = GENERATE(Decision::watch, Decision::interim, Decision::seal);
  Seated chair;
  chair.press("ZDDD"); // the other three are not up
  chair.press("M1");
  chair.press("LS");
  const auto words = u"Decision: "_s + ui::toQt(base::displayName(wanted));
  for (int i = 0; i < 11 && !chair.text("screeningCursor").contains(words); ++i)
    chair.press("J");
  CHECK(chair.text("screeningCursor").contains(words));
  chair.record();
  const auto found = chair.row(46);
  CHECK(found.softTissue == chairside::SoftTissue::operculum);
  CHECK(found.decision == wanted);
  CHECK(found.revisit);
  if (wanted == Decision::watch) {
    CHECK(chair.shows("finishPanel"));
    return;
  }
  REQUIRE(chair.shows("fieldPanel"));
  if (wanted == Decision::seal) {
    chair.press(Qt::Key_Return);
    chair.etchToFrosty();
    chair.cure();
    chair.press("5");
  } else {
    chair.press(Qt::Key_Return); // resin is refused for an interim cover
    CHECK(chair.message().contains(u"glass ionomer"_s));
    chair.press("L3"); // Interim Clay
    chair.press(Qt::Key_Return);
    CHECK(chair.shows("dryButton"));
    chair.press("5");
    chair.press(Qt::Key_Space);
    chair.run(90);
    chair.press("5");
  }
  const auto placements = must(chair.clinic.session.placements(chair.child));
  REQUIRE(placements.size() == 1);
  CHECK(placements[0].value.attempt == chairside::Attempt::complete);
  CHECK(placements[0].value.surfaces == SurfaceSet{Surface::occlusal});
  CHECK((placements[0].value.type == chairside::PlacementType::interim) ==
        (wanted == Decision::interim));
}

TEST_CASE("A molar too early for the age is asked about and a primary molar still there is said",
          "[case-28]") {
  Seated chair;
  chair.press("7S"); // a second molar, at seven years
  CHECK(chair.text("screeningAge").contains(u"is it perhaps a first molar?"_s));
  chair.press("U");
  chair.press("D");
  CHECK_FALSE(chair.shows("screeningAge"));
  chair.press("B");
  chair.type(u"4"_s); // the place of the upper right second premolar
  CHECK(chair.text("askQuestion").startsWith(u"Which tooth is here?"_s));
  chair.press("2");
  CHECK(chair.tile("tile15").contains(u"primary retained"_s));
  chair.press("ZSSSS");
  chair.record();
  CHECK(chair.row(15).presence == Presence::primaryStillPresent);
  CHECK(chair.row(15).decision == Decision::none);
  CHECK(chair.row(17).presence == Presence::unerupted);
}

TEST_CASE("A second molar that drifted forward keeps its name and a note says where it stands",
          "[case-29]") {
  Seated chair;
  chair.press("GSSSS"); // the first molar is gone, the second stands in its place
  chair.press("77");
  CHECK(chair.text("screeningCursor").startsWith(u"Upper right second molar, 2"_s));
  chair.press("N1");
  chair.type(u"drifted into the place of the first molar"_s);
  CHECK(chair.text("screeningCursor").contains(u"Note: drifted into the place"_s));
  chair.press("ZR"); // and the question about its age is read
  chair.record();
  CHECK(chair.row(16).presence == Presence::extracted);
  CHECK(chair.row(17).decision == Decision::seal);
  CHECK(chair.row(17).note == "drifted into the place of the first molar");
}

TEST_CASE("Premolars and primary molars are sealed only where the program offers it", "[case-30]") {
  const bool offered = GENERATE(false, true);
  Seated chair(offered);
  chair.press("ZDDDD");
  chair.press("B");
  chair.type(u"4"_s);
  chair.press("1S");
  CHECK(chair.offersSealing() == offered);
  chair.press("B");
  chair.type(u"A"_s); // upper right primary second molar
  chair.press("S");
  CHECK(chair.tile("tile55").contains(u"seal occlusal"_s) == offered);
  chair.press("444");
  CHECK(chair.text("pauseLine").contains(u"upper right primary second molar, A"_s) == offered);
}

TEST_CASE("A tooth with a cavity cannot be sealed until its finding is changed with a reason",
          "[case-31]") {
  Seated chair;
  chair.press("ZCDDD7");
  CHECK_FALSE(chair.offersSealing());
  chair.record("45"); // the cavity answered untreated decay
  CHECK_FALSE(chairside::isTreatment(chair.row(16).decision));
  REQUIRE(chair.shows("finishPanel")); // nothing to seal
  chair.press("ES");
  chair.press("Q444");
  chair.press(Qt::Key_Return);
  CHECK(chair.text("askQuestion").startsWith(u"What is corrected, and why?"_s));
  chair.type(u"stain, no cavity"_s);
  CHECK(chair.row(16).decision == Decision::seal);
  CHECK(must(chair.clinic.session.screenings(chair.child)).back().stamp.reason ==
        "stain, no cavity");
  CHECK(chair.shows("fieldPanel"));
}

TEST_CASE("An early lesion without a hole is a reason to seal", "[case-32]") {
  Seated chair;
  chair.press("ZEDDD");
  CHECK(chair.tile("tile16").contains(u"non-cavitated lesion, seal occlusal and lingual"_s));
  chair.record();
  CHECK(chair.row(16).occlusal.condition == Condition::earlyLesion);
  CHECK(chair.row(16).decision == Decision::seal);
  CHECK(chair.shows("fieldPanel"));
}

TEST_CASE("Fluorosis is sealed and its own white is not taken for frost", "[case-33]") {
  Seated chair;
  chair.press("ZM8DDDS"); // every answer goes on; the one not finished comes round again
  chair.record();
  CHECK(chair.row(16).enamel == Enamel::fluorosisMild);
  CHECK(chair.row(16).decision == Decision::seal);
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  CHECK(chair.text("fieldGuide").contains(u"Fluorosis, upper right first molar: already white"_s));
}

TEST_CASE("A hypomineralized molar is sealed and looked at sooner, a broken one referred",
          "[case-34]") {
  Seated chair;
  chair.press("ZM5");  // opacity
  chair.press("M6DD"); // opacity, broken down
  chair.press("SS");   // round again: what they look like otherwise
  chair.record("545");
  CHECK(chair.row(16).decision == Decision::seal);
  CHECK(chair.row(16).revisit);
  CHECK(chair.row(26).enamel == Enamel::opacityBroken);
  CHECK(chair.row(26).decision == Decision::refer);
  chair.press(Qt::Key_Return);
  const auto fields = must(chair.clinic.session.fields(chair.child, chair.clinic.day));
  REQUIRE(fields.size() == 1);
  CHECK(fields[0].protocol.teeth().size() == 1);
}

TEST_CASE("A sealant of someone else is recorded as that and left alone", "[case-35]") {
  Seated chair;
  chair.press("ZYYYY");
  CHECK(chair.tile("tile16").contains(u"sealant fully retained"_s));
  chair.record();
  CHECK(chair.row(16).occlusal.origin == Origin::other);
  CHECK(chair.row(16).decision == Decision::none);
  CHECK(chair.text("finishTitle") == u"No teeth sealed today"_s);
  chair.press(Qt::Key_Return);
  CHECK(must(chair.clinic.session.placements(chair.child)).empty());
}

TEST_CASE("Who sealed a tooth may stay unknown and is never guessed", "[case-36]") {
  Seated chair;
  chair.press("ZMCDDD"); // "Sealed, origin?"
  chair.record();
  CHECK(chair.row(16).occlusal ==
        chairside::SurfaceFinding{Condition::sealedWhole, Origin::unknown});
  CHECK(chair.row(16).decision == Decision::none);
}

TEST_CASE("Two programs on one tooth are told apart by surface", "[case-37]") {
  Seated chair;
  chair.press("1LO");  // lower right: we sealed the chewing surface
  chair.press("1LLY"); // and a dentist the buccal pit
  chair.press("7ZDDD");
  chair.record();
  CHECK(chair.row(46).occlusal.origin == Origin::ours);
  CHECK(chair.row(46).buccal.origin == Origin::other);
}

TEST_CASE("A sealant over an old filling reads as a filling and is repaired only by choice",
          "[case-38]") {
  Seated chair;
  chair.press("ZFDDD7");
  CHECK(chair.text("screeningCursor").contains(u"Decision: none"_s));
  const bool repairs = GENERATE(false, true);
  if (repairs) {
    for (int i = 0; i < 11 && !chair.text("screeningCursor").contains(u"Decision: repair"_s); ++i)
      chair.press("J");
    chair.press("N1");
    chair.type(u"edge open, sealed over"_s);
  }
  chair.record("454");
  CHECK(chair.row(16).occlusal.condition == Condition::restored);
  CHECK(chair.row(16).decision == (repairs ? Decision::repair : Decision::none));
  CHECK(chair.shows("fieldPanel") == repairs);
}

TEST_CASE("An extra tooth is a note on its neighbor and gets no number", "[case-41]") {
  Seated chair;
  chair.press("N1");
  chair.type(u"extra small tooth behind it"_s);
  chair.press("ZSSSS");
  chair.record();
  CHECK(chair.row(16).note == "extra small tooth behind it");
  CHECK(must(chair.clinic.session.screenings(chair.child)).back().value.teeth.size() == 8);
}
