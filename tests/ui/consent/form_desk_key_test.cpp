#include "ui/fixtures/window_fixture.h"

using namespace gk;
using namespace gk::test;

TEST_CASE("The form desk's key leads to the forms, from its counts and what was handed out too") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  const auto go = [&](Qt::Key key, Qt::KeyboardModifiers with) { press(*desk.window, key, with); };
  go(Qt::Key_F, Qt::ControlModifier);
  REQUIRE(part<QLineEdit>(*desk.window, u"formFind"_s).isVisible());
  go(Qt::Key_C, Qt::AltModifier);
  go(Qt::Key_L, Qt::AltModifier);
  REQUIRE(part<QWidget>(*desk.window, u"handoutsPage"_s).isVisible());
  go(Qt::Key_T, Qt::ControlModifier);
  go(Qt::Key_F, Qt::ControlModifier);
  auto& find = part<QLineEdit>(*desk.window, u"formFind"_s);
  CHECK(find.isVisible());
  CHECK(find.hasFocus());
}
