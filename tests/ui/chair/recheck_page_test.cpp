#include "ui/fixtures/later_fixture.h"

using namespace gk;
using test::Later;
using test::must;

TEST_CASE("Four whole sealants are rechecked within twelve actions") {
  Later chair(365);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  CHECK(chair.text("recheckStory").contains(QStringLiteral("Sealed November 17, 2026")));
  chair.press("8");
  CHECK(chair.message().toStdString() == "");
  chair.press("888");
  const auto earlier = must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day));
  REQUIRE(earlier.size() == 4);
  for (const auto& one : earlier) {
    REQUIRE(one.newest.has_value());
    CHECK(one.newest->value.tooth() == followup::Held::whole);
    CHECK(one.newest->value.kind == followup::CheckKind::longTerm);
  }
  CHECK(chair.keys <= 12);
}

TEST_CASE("A part that lifts is resealed and a part that holds would be repaired", "[case-59]") {
  Later chair(60);
  chair.seat(chair.wren);
  chair.press("5");  // upper right: chewing surface whole
  chair.press("62"); // groove held in part, and it lifts
  CHECK(chair.text("recheckAnswers").contains(QStringLiteral("RESEAL TODAY")));
  chair.press(Qt::Key_Return);
  chair.press("888");
  REQUIRE(chair.shows("screeningPanel"));
  CHECK(chair.page->findChild<QWidget*>(QStringLiteral("tile16"))
            ->accessibleName()
            .contains(QStringLiteral("reseal")));
  chair.press("Z444");
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.cure();
  chair.press("5");
  const auto placements = must(chair.clinic.session.placements(chair.wren));
  REQUIRE(placements.size() == 5);
  CHECK(placements.back().value.type == chairside::PlacementType::reseal);
  CHECK(placements.back().value.surfaces ==
        dentition::SurfaceSet{dentition::Surface::lingualGroove});
}

TEST_CASE("Without consent for a recheck nobody looks", "[case-12]") {
  Later chair(365);
  for (const auto& old : must(chair.clinic.session.consents(chair.wren))) {
    auto narrower = old.value;
    narrower.allowed.remove(roster::Service::recheckAndReplace);
    must(chair.clinic.session.correctConsent(chair.clinic.by, old, narrower, "read again"));
  }
  chair.seat(chair.wren);
  CHECK(chair.shows("screeningPanel"));
}

TEST_CASE("The checker reads the material's name and to feel for a clear one", "[case-63]") {
  Later chair(365);
  chair.seat(chair.wren);
  const auto lots = must(chair.clinic.session.lots());
  const auto resin = std::find_if(lots.begin(), lots.end(),
                                  [&](const auto& lot) { return lot.id == chair.clinic.resin; });
  CHECK(chair.text("recheckStory").contains(QString::fromStdString(resin->value.material)));
  CHECK(chair.text("recheckStory").contains(QStringLiteral("clear sealant is hard to see")));
}

TEST_CASE("A check by another than the placer is blind", "[case-62]") {
  Later chair(365);
  chair.seat(chair.wren);
  CHECK_FALSE(chair.text("recheckStory").contains(QStringLiteral("non-blinded")));
  chair.press("8");
  const auto earlier = must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day));
  CHECK(std::any_of(earlier.begin(), earlier.end(),
                    [](const auto& one) { return one.newest && one.newest->value.blinded; }));
}
