#include "chairside/display_names.h"
#include "ui/fixtures/small_laptop.h"
#include "ui/keys/cap_button.h"

using namespace gk;
using namespace gk::test;

namespace {

/// The pixels of a tile that have the ground of what is in hand.
int handGround(const QWidget& chair, const char* tile) {
  const auto picture = part<ui::ToothTile>(chair, QString::fromLatin1(tile)).grab().toImage();
  int count = 0;
  for (int y = 0; y < picture.height(); ++y)
    for (int x = 0; x < picture.width(); ++x)
      if (picture.pixelColor(x, y) == ui::style::hand()) ++count;
  return count;
}

/// No word of an answer is cut.
void areAnswersWhole(const QWidget& chair) {
  for (const auto* button : chair.findChildren<ui::CapButton*>())
    if (button->isVisible() && button->objectName().startsWith(u"askOption"_s)) {
      INFO(ui::lookNow().percent << " %, " << button->text().toStdString() << ' ' << button->width()
                                 << 'x' << button->height());
      CHECK(button->hasRoom());
    }
}

} // namespace

TEST_CASE("With an alert and a message up no step moves a tile, covers a key or hides what goes on",
          "[case-302][case-402][case-481]") {
  const auto [percent, alerts] =
      GENERATE(table<int, SmallLaptop::Alerts>({{100, SmallLaptop::Alerts::one},
                                                {150, SmallLaptop::Alerts::one},
                                                {150, SmallLaptop::Alerts::two}}));
  SmallLaptop desk(percent, alerts);
  desk.look("identity");
  for (const auto& name : {u"identityName"_s, u"identityFacts"_s, u"identityStop"_s,
                           u"identityConsent"_s, u"identityAsked"_s})
    desk.inSight(name);
  desk.key(Qt::Key_PageDown);
  desk.key(Qt::Key_Left);
  desk.look("identity confirmed");
  desk.inSight(u"identityConsent"_s);
  desk.key(Qt::Key_Return);
  desk.look("screening", SmallLaptop::Goes::notYet);
  desk.inSight(u"chairStop"_s);
  desk.keys("ZSEC");
  desk.look("half screened", SmallLaptop::Goes::notYet);
  desk.keys("S45"); // a cavity is charted, so care is early at least
  desk.look("the plan is read");
  desk.inSight(u"pauseLine"_s);
  desk.key(Qt::Key_Return);
  desk.isAt(u"fieldPanel"_s);
  desk.look("keep dry");
  desk.key(Qt::Key_Return);
  desk.look("etch");
  desk.key(Qt::Key_Space);
  desk.run(20);
  desk.look("etching");
  desk.key(Qt::Key_Space);
  desk.look("rinse");
  desk.run(10);
  desk.look("frosty");
  desk.keys("5");
  desk.look("place");
  desk.key(Qt::Key_Space);
  desk.run(7);
  CHECK(desk.chair->findChild<ui::TimerView*>()->isRunning());
  desk.look("curing");
  desk.run(13);
  for (int exposure = 0; exposure < 3; ++exposure) {
    desk.key(Qt::Key_Space);
    desk.run(20);
  }
  desk.look("check");
  desk.keys("55");
  desk.look("the other side");
  desk.keys("X");
  desk.look("stop");
  desk.key(Qt::Key_Escape);
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Space);
  desk.run(20);
  desk.key(Qt::Key_Space);
  desk.run(10);
  desk.keys("5");
  for (int exposure = 0; exposure < 4; ++exposure) {
    desk.key(Qt::Key_Space);
    desk.run(20);
  }
  desk.keys("55");
  desk.isAt(u"finishPanel"_s);
  desk.look("finish");
}

TEST_CASE("With two alerts the card of the identity check and what begins the visit are whole, in "
          "large letters too") {
  const auto [percent, alerts] =
      GENERATE(table<int, SmallLaptop::Alerts>({{100, SmallLaptop::Alerts::two},
                                                {150, SmallLaptop::Alerts::one},
                                                {150, SmallLaptop::Alerts::two}}));
  SmallLaptop desk(percent, alerts);
  if (alerts == SmallLaptop::Alerts::two) {
    CHECK(desk.reads(u"ALLERGY: latex"_s));
    CHECK(desk.reads(u"ALLERGY: rosin"_s));
  }
  const auto seesAll = [&](const char* step) {
    INFO(step);
    QTest::qWait(1);
    for (const auto& name : {u"identityName"_s, u"identityFacts"_s, u"identityStop"_s,
                             u"identityConsent"_s, u"identityAsked"_s})
      desk.inSight(name);
    const auto& begins = part<ui::CapButton>(*desk.chair, u"seatButton"_s);
    CHECK(begins.visibleRegion().boundingRect() == begins.rect());
    CHECK(begins.hasRoom());
    CHECK(desk.letters(u"identityAsked"_s) >= 20);
    for (const auto& name : {u"identityName"_s, u"identityFacts"_s, u"identityStop"_s})
      CHECK(desk.letters(name) >= 18);
  };
  seesAll("who it is");
  desk.key(Qt::Key_PageDown);
  seesAll("the alerts are read");
  desk.key(Qt::Key_Left);
  seesAll("identity confirmed");
}

TEST_CASE("The key that resolves an alert is no key of the window, at any step of a visit",
          "[case-446]") {
  SmallLaptop desk(100);
  const auto& resolve = part<QPushButton>(*desk.chair, u"decideStopButton"_s);
  const auto asks = [&](const char* step) {
    INFO(step);
    REQUIRE(desk.chair->isVisible());
    CHECK(keysTakenAway(*desk.window).join(u", "_s) == QString());
    REQUIRE(resolve.isEnabled());
    desk.key(Qt::Key_Backspace);
    REQUIRE(desk.chair->isVisible());
    CHECK(words(*desk.chair, u"askQuestion"_s).startsWith(u"What was decided about"_s));
    CHECK(part<QWidget>(*desk.chair, u"askLine"_s).isVisible());
    desk.key(Qt::Key_Escape);
    CHECK_FALSE(part<QWidget>(*desk.chair, u"askLine"_s).isVisible());
  };
  asks("identity");
  desk.key(Qt::Key_PageDown);
  desk.key(Qt::Key_Left);
  asks("identity confirmed");
  desk.key(Qt::Key_Return);
  asks("screening");
  desk.keys("ZSEC");
  asks("half screened");
  desk.keys("S45");
  asks("plan");
  desk.key(Qt::Key_Return);
  desk.isAt(u"fieldPanel"_s);
  asks("keep dry");
  desk.key(Qt::Key_Return);
  asks("etch");
  desk.key(Qt::Key_Space);
  desk.run(7);
  desk.key(Qt::Key_Backspace); // while a timer runs nothing is asked, and nothing is left
  CHECK(desk.chair->isVisible());
  CHECK_FALSE(part<QWidget>(*desk.chair, u"askLine"_s).isVisible());
  desk.run(13);
  desk.key(Qt::Key_Space);
  desk.run(10);
  asks("frosty");
  desk.keys("5");
  asks("place");
  for (int exposure = 0; exposure < 4; ++exposure) {
    desk.key(Qt::Key_Space);
    desk.run(20);
  }
  asks("check");
  desk.keys("55");
  asks("the other side");
  desk.keys("X");
  desk.key(Qt::Key_Escape);
  // The list of keys has it, as the key that it is here.
  test::press(*desk.window, Qt::Key_F1, Qt::ShiftModifier);
  QCoreApplication::processEvents();
  const auto caps = desk.window->findChildren<QLabel*>(u"helpKey"_s);
  CHECK(std::ranges::any_of(
      caps, [](const QLabel* cap) { return cap->isVisible() && cap->text() == u"Bksp"_s; }));
  desk.key(Qt::Key_Escape);
  desk.key(Qt::Key_Backspace);
  auto& line = part<QLineEdit>(*desk.chair, u"askLine"_s);
  REQUIRE(line.isVisible());
  line.setText(u"mother by phone: it was a powder, no latex"_s);
  QTest::keyClick(&line, Qt::Key_Return);
  QCoreApplication::processEvents();
  CHECK(desk.chair->isVisible());
  CHECK_FALSE(resolve.isEnabled());
}

TEST_CASE("Every answer to a question is in sight at once", "[case-302]") {
  SmallLaptop desk(GENERATE(100, 150));
  desk.toTheField();
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Space);
  desk.run(5);
  desk.keys("X");
  desk.look("stop while a timer runs");
  CHECK(desk.answers() == 7);
  desk.key(Qt::Key_Escape);
  desk.keys("W");
  desk.look("contaminated while a timer runs");
  CHECK(desk.answers() == 4);
  desk.key(Qt::Key_Escape);
  desk.run(15);
  desk.key(Qt::Key_Space);
  desk.run(10);
  desk.keys("W");
  desk.look("contaminated");
  CHECK(desk.answers() == 4);
  desk.key(Qt::Key_Escape);
  desk.keys("X");
  desk.look("stop");
  CHECK(desk.answers() == 7);
  desk.key(Qt::Key_Escape);
  desk.keys("5");
  for (int exposure = 0; exposure < 4; ++exposure) {
    desk.key(Qt::Key_Space);
    desk.run(20);
  }
  desk.keys("55");
  desk.sealSide(2); // one tooth; its last key says that it was wiped
  desk.isAt(u"finishPanel"_s);
  desk.keys("J");
  desk.look("outcome");
  CHECK(desk.answers() == static_cast<int>(base::displayNamesOf<chairside::DayEnd>().size()));
  areAnswersWhole(*desk.chair);
  desk.key(Qt::Key_Escape);
  desk.key(Qt::Key_Return);
  CHECK(words(*desk.chair, u"askQuestion"_s).startsWith(u"Refer for "_s));
  desk.look("referral");
  CHECK(desk.answers() == 6);
  desk.keys("6"); // decide at close-out
  CHECK(words(*desk.chair, u"askQuestion"_s).startsWith(u"The form allows varnish"_s));
  desk.look("varnish");
  CHECK(desk.answers() == 6);
}

TEST_CASE("Before the isolation the teeth to keep dry are read, and stand out on the map",
          "[case-302]") {
  SmallLaptop desk(GENERATE(100, 150));
  desk.toTheField();
  desk.inSight(u"fieldTeeth"_s);
  CHECK(words(*desk.chair, u"fieldTeeth"_s) ==
        u"Upper right first molar, 3: OL\nLower right first molar, 30: OB"_s);
  CHECK(desk.chair->findChild<ui::TimerView*>()->hasRoom());
  for (const auto* tile : {"tile16", "tile46"})
    CHECK(handGround(*desk.chair, tile) > 2000);
  for (const auto* tile : {"tile26", "tile36", "tile17"})
    CHECK(handGround(*desk.chair, tile) == 0);
}

TEST_CASE("The heading of a step for one of two teeth stands in one line, whatever the letters") {
  SmallLaptop desk(GENERATE(100, 150));
  desk.toTheField();
  desk.key(Qt::Key_Return);
  const auto& title = part<QLabel>(*desk.chair, u"fieldTitle"_s);
  CHECK(title.text() == u"Etch 2 teeth"_s);
  desk.key(Qt::Key_Space);
  desk.run(20);
  desk.key(Qt::Key_Space);
  desk.run(10);
  desk.keys("5W1");
  desk.look("re-etch");
  INFO(title.text().toStdString());
  CHECK(title.text() == u"Re-etch upper right first molar"_s);
  CHECK(title.fontMetrics().horizontalAdvance(title.text()) <= title.width());
}
