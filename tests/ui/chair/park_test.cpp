#include "ui/fixtures/chair_fixture.h"
#include "ui/keys/ask_bar.h"

#include <QKeyEvent>

using namespace gk;

TEST_CASE("A parked child goes on at the same step after saying the name again") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  const auto other = chair.clinic.child("Pia", "Lindenholt");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press("P");
  CHECK_FALSE(chair.page->isOccupied());
  chair.seat(other);
  chair.press("P");
  REQUIRE(chair.page->take(child, chair.clinic.day));
  CHECK(chair.shows("identityPanel"));
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  CHECK(chair.text("fieldTitle").contains(QStringLiteral("Place sealant")));
}

TEST_CASE("A child who was parked is asked for the name also when no one sat there since") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press("P");
  REQUIRE(chair.page->take(child, chair.clinic.day));
  CHECK(chair.shows("identityPanel"));
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  CHECK(chair.shows("fieldPanel"));
}

TEST_CASE("The arrows move the marked answer of a question and Enter gives it") {
  ui::AskBar ask;
  int given = -1;
  bool left = false;
  ask.choose(
      QStringLiteral("Which?"), {QStringLiteral("a"), QStringLiteral("b"), QStringLiteral("c")},
      [&](int option) { given = option; }, [&] { left = true; });
  for (const auto key : {Qt::Key_Down, Qt::Key_Down, Qt::Key_Down, Qt::Key_Up, Qt::Key_Return})
    ask.press(QKeyEvent(QEvent::KeyPress, key, Qt::NoModifier));
  CHECK(given == 1);
  CHECK_FALSE(left);
  ask.choose(
      QStringLiteral("Which?"), {QStringLiteral("a")}, [&](int option) { given = option; },
      [&] { left = true; });
  ask.press(QKeyEvent(QEvent::KeyPress, Qt::Key_Escape, Qt::NoModifier));
  CHECK(given == 1);
  CHECK(left);
}

TEST_CASE("A child in the chair is not replaced without being asked about") {
  test::Chair chair;
  const auto mina = chair.clinic.child("Mina");
  const auto pia = chair.clinic.child("Pia", "Lindenholt");
  chair.seat(mina);
  CHECK_FALSE(chair.page->take(pia, chair.clinic.day));
  REQUIRE(chair.prompter.asked.size() == 1);
  chair.prompter.confirms.push_back(true);
  CHECK(chair.page->take(pia, chair.clinic.day));
}
