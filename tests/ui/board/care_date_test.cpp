#include "ui/fixtures/window_fixture.h"

using namespace gk;
using namespace gk::test;

TEST_CASE("A day left open says for which date all is written until it is closed", "[case-101]") {
  Window desk;
  desk.fill();
  {
    desk.openAndUnlock();
    CHECK_FALSE(desk.shows(u"careDate"_s));
    desk.window.reset();
  }
  desk.clock.advance(std::chrono::hours(24));
  desk.openAndUnlock();
  for (const auto page : {Qt::Key_F1, Qt::Key_F2, Qt::Key_F5, Qt::Key_F9}) {
    press(*desk.window, page);
    REQUIRE(desk.shows(u"careDate"_s));
    CHECK(desk.reads(u"The open day is Tuesday, November 17, 2026, and today is Wednesday, "_s
                     u"November 18, 2026"_s));
  }
}

TEST_CASE("What was looked for on the board does not stand in the next one's way") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto& line = part<QLineEdit>(*desk.window, u"boardSearch"_s);
  line.setFocus();
  line.setText(u"zzz"_s);
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.reads(u"No match"_s));
  CHECK(line.selectedText() == u"zzz"_s); // the next number takes its place
  press(*desk.window, Qt::Key_F2);
  press(*desk.window, Qt::Key_F1);
  CHECK(line.text().isEmpty());
}
