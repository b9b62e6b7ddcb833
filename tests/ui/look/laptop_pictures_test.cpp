#include "ui/board/readiness_page.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/look/look.h"

using namespace gk;
using namespace gk::test;

// test_ui "[.pictures]" writes the pages of the morning into the folder it is run in.
TEST_CASE("Pictures of the morning check, the laptop's page and a running cure", "[.pictures]") {
  ui::dress();
  Chair chair;
  ui::ReadinessPage morning(chair.context, nullptr);
  morning.chooseDay(chair.clinic.day);
  showActive(morning);
  QTest::keyClick(&morning, Qt::Key_Return);
  QTest::keyClick(&morning, Qt::Key_Return);
  CHECK(morning.grab().save(u"morning.png"_s));
  ui::LaptopPage laptop(chair.context, nullptr);
  showActive(laptop);
  CHECK(laptop.grab().save(u"laptop.png"_s));
  auto habits = chair.acting.habits();
  habits.strip = ui::Side::left;
  chair.acting.keep(habits);
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  CHECK(chair.page->grab().save(u"flow-left.png"_s));
  chair.press(Qt::Key_Space);
  chair.run(12);
  QCoreApplication::processEvents();
  CHECK(chair.page->grab().save(u"cure-left.png"_s));
}
