#include "reports/records/inputs.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/mouth/mouth_map.h"

#include <iostream>

using namespace gk;
using chairside::Attempt;
using test::must;

TEST_CASE("A standard child is sealed by keyboard alone within the key budget") {
  test::Chair chair;
  const auto mina = chair.clinic.child("Mina", "Tolliver-Reed");
  chair.seat(mina);
  REQUIRE(chair.shows("screeningPanel"));
  chair.press("ZSSSS444");
  CHECK(chair.text("pauseLine")
            .startsWith(QStringLiteral(
                "Sealing 4: upper right first molar, 3 (occlusal and lingual groove)")));
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  CHECK(chair.text("fieldTitle") == QStringLiteral("Right side: keep dry"));
  chair.sealHalf();
  CHECK(chair.text("fieldTitle") == QStringLiteral("Left side: keep dry"));
  chair.sealHalf();
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishSealed").count(QStringLiteral(": sealed")) == 4);
  chair.press("5V");
  CHECK(chair.text("finishState").contains(QStringLiteral("Varnish: YES")));
  chair.press(Qt::Key_Return);
  CHECK_FALSE(chair.page->isOccupied());

  const auto placements = must(chair.clinic.session.placements(mina));
  REQUIRE(placements.size() == 4);
  for (const auto& [id, stamp, placement] : placements) {
    CHECK(placement.attempt == Attempt::complete);
    CHECK(placement.surfaces == dentition::usualSurfaces(placement.tooth));
    CHECK(placement.cures == 2);
    CHECK(placement.etched == base::Seconds(20));
    CHECK(placement.cured == base::Seconds(20));
    CHECK(placement.frosty);
    CHECK(placement.light == chair.clinic.light);
    CHECK(stamp.by.recorder == chair.clinic.assistant);
  }
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  REQUIRE(records.outcomes.size() == 1);
  CHECK(records.outcomes.front().value.end == chairside::DayEnd::sealedComplete);
  CHECK(records.varnishes.size() == 1);

  std::cout << "standard child: " << chair.keys << " keys and " << chair.pedals
            << " pedal presses, " << chair.keys + chair.pedals << " actions\n";
  CHECK(chair.keys + chair.pedals <= 35);
  CHECK(chair.keys <= 24);
}

TEST_CASE("A finger on a surface says what the key says, and once more means the whole tooth") {
  test::Chair chair;
  chair.seat(chair.clinic.child("Mina", "Tolliver-Reed"));
  chair.press("Z");
  const auto touch = [&](const char* name) {
    auto* target = chair.page->findChild<QWidget*>(QString::fromLatin1(name));
    REQUIRE(target != nullptr);
    QTest::mouseClick(target, Qt::LeftButton);
  };
  touch("surface46B");
  CHECK(chair.text("screeningCursor") ==
        QStringLiteral("Lower right first molar, 30: buccal pit only"));
  touch("surface46B");
  CHECK(chair.text("screeningCursor").contains(QStringLiteral("whole tooth")));
  touch("surface26L");
  chair.press("E");
  const auto byFinger = chair.page->findChild<QWidget*>(QStringLiteral("tile26"))->accessibleName();
  chair.press("U"); // back at that surface of that tooth
  CHECK(chair.text("screeningCursor") ==
        QStringLiteral("Upper left first molar, 14: lingual groove only"));
  chair.press("LLL"); // the whole tooth, its chewing surface, and round to the groove
  chair.press("E");
  CHECK(chair.page->findChild<QWidget*>(QStringLiteral("tile26"))->accessibleName() == byFinger);
  touch("surface16O");
  chair.press(Qt::Key_Right); // the cursor goes on, to a whole tooth again
  CHECK(chair.text("screeningCursor").contains(QStringLiteral("whole tooth")));
}

TEST_CASE("No key's words are cut off and the page fits a small laptop at every stage") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina", "Tolliver-Reed");
  const auto fits = [&](const char* stage) {
    QCoreApplication::processEvents();
    INFO(stage);
    CHECK(chair.page->height() <= 690);
    for (const auto* button : chair.page->findChildren<QPushButton*>()) {
      if (!button->isVisible()) continue;
      INFO(button->text().toStdString());
      CHECK(button->sizeHint().width() <= button->width());
    }
  };
  REQUIRE(chair.page->take(child, chair.clinic.day));
  fits("identity");
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  chair.press("ZSSSS444");
  fits("screening");
  chair.press("M");
  fits("rarer states");
  chair.press(Qt::Key_Escape);
  chair.press(Qt::Key_Return);
  fits("keep dry");
  chair.press(Qt::Key_Return);
  fits("etch");
  chair.press(Qt::Key_Space);
  chair.run(20);
  fits("etching");
  chair.press(Qt::Key_Space);
  fits("rinse");
  chair.run(10);
  fits("frosty");
  chair.press("5W");
  fits("wet");
  chair.press(Qt::Key_Escape);
  fits("flow");
  chair.press(Qt::Key_Space);
  fits("curing");
  chair.run(20);
  chair.cure();
  chair.cure();
  chair.cure();
  fits("check");
  chair.page->findChild<ui::MessageStrip*>()->post(
      ui::describe({base::ErrorCode::ruleCure, "a sentence of the usual length, with what to do"}));
  fits("a trouble at the check");
  chair.press("55X");
  fits("stop");
  chair.press("1");
  fits("finish");
  chair.press("J");
  fits("outcomes");
}

TEST_CASE("Tab goes from tooth to tooth in the order of work") {
  const auto [order, second] = GENERATE(table<ui::WorkOrder, int>(
      {{ui::WorkOrder::halves, 46}, {ui::WorkOrder::arches, 26}, {ui::WorkOrder::quadrants, 46}}));
  test::Chair chair;
  auto habits = chair.acting.habits();
  habits.order = order;
  chair.acting.keep(habits);
  chair.seat(chair.clinic.child("Mina", "Tolliver-Reed"));
  auto* map = chair.page->findChild<ui::MouthMap*>();
  REQUIRE(map->selected() == dentition::toothAt(16));
  chair.press(Qt::Key_Tab);
  CHECK(map->selected() == dentition::toothAt(17));
  chair.press(Qt::Key_Tab);
  CHECK(map->selected() == dentition::toothAt(second));
}
