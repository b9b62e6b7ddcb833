#include "ui/board/readiness_page.h"
#include "ui/files/laptop_page.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/look/look.h"

using namespace gk;
using namespace gk::test;

TEST_CASE("Pictures of the morning check, the laptop's page and a running cure", "[.pictures]") {
  ui::dress();
  Chair chair;
  ui::ReadinessPage morning(chair.context, nullptr);
  morning.chooseDay(chair.clinic.day);
  showActive(morning);
  QTest::keyClick(&morning, Qt::Key_Return);
  QTest::keyClick(&morning, Qt::Key_Return);
  savePicture(morning, u"morning"_s);
  ui::LaptopPage laptop(chair.context, nullptr);
  showActive(laptop);
  savePicture(laptop, u"laptop"_s);
  auto habits = chair.acting.habits();
  habits.strip = ui::Side::left;
  chair.acting.keep(habits);
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  savePicture(*chair.page, u"flow-left"_s);
  chair.press(Qt::Key_Space);
  chair.run(12);
  QCoreApplication::processEvents();
  savePicture(*chair.page, u"cure-left"_s);
}
