#include "ui/asking/pin_pad.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/widgets/message_strip.h"
#include "ui/widgets/timer_view.h"

using namespace gk;
using namespace gk::test;

namespace {

constexpr auto hersPin = "2580";

/// The window on a book whose hygienist has a PIN, with Lupe in the chair and two teeth isolated
/// where wished.
struct PinWindow : Window {
  std::optional<base::MemberId> hygienist;
  std::optional<chairside::FieldId> field;
  int keys = 0;

  explicit PinWindow(bool isolated = false) {
    Clinic clinic(book(), session::BookKind::throwaway);
    hygienist = clinic.hygienist;
    clinic.child("Mina", "Tolliver-Reed");
    if (isolated) {
      const auto lupe = clinic.child("Lupe", "Saltmarsh");
      clinic.seat(lupe);
      clinic.screenFour(lupe);
      field = must(clinic.session.isolate(clinic.by, clinic.field(lupe, {16, 46})));
    }
    must(clinic.session.setPin({clinic.hygienist, {}}, clinic.hygienist, hersPin));
    must(clinic.session.finish());
  }
  /// By the passphrase, then signed in; from then on it locks after `after`.
  void enter(std::chrono::milliseconds after = std::chrono::minutes(2)) {
    idle = after;
    openAndUnlock();
    REQUIRE(shows(u"pinPad"_s));
    type(hersPin);
    keys = 0;
  }
  void type(const char* pin) {
    for (const char* digit = pin; *digit != 0; ++digit, ++keys)
      press(*window, static_cast<Qt::Key>(*digit));
    press(*window, Qt::Key_Return);
    ++keys;
  }
  /// With a look at the timer every second: a gap would be a laptop that slept.
  void run(ui::TimerView& timer, int seconds) {
    for (int i = 0; i < seconds; ++i) {
      clock.advance(std::chrono::seconds(1));
      timer.tick();
    }
  }
  [[nodiscard]] session::Session& session() const { return window->book()->session(); }
  [[nodiscard]] bool waitCovered() const {
    return QTest::qWaitFor([&] { return isCovered(); }, 5000);
  }
};

} // namespace

TEST_CASE("After the passphrase the person at the keyboard signs in with her PIN", "[case-234]") {
  PinWindow desk;
  desk.openAndUnlock();
  CHECK(desk.isCovered());
  CHECK(words(*desk.window, u"coverTitle"_s) == u"Who is at the keyboard?"_s);
  CHECK(words(*desk.window, u"coverPerson"_s).contains(u"Oriel Fenwhistle"_s));
  desk.type("9038");
  CHECK(desk.isCovered());
  CHECK(words(*desk.window, u"coverTrouble"_s).contains(u"not the PIN"_s));
  desk.clock.advance(std::chrono::seconds(2));
  desk.type(hersPin);
  CHECK(desk.shows(u"dayBoardPage"_s));
  CHECK(desk.session().signedIn() == desk.hygienist);
}

TEST_CASE("One without a PIN signs in by choosing her name", "[case-234]") {
  PinWindow desk;
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_Down);
  CHECK(words(*desk.window, u"coverPerson"_s).contains(u"Bram Ottersley"_s));
  CHECK_FALSE(desk.shows(u"pinPad"_s));
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.shows(u"dayBoardPage"_s));
  CHECK(desk.window->book()->acting().by().author == desk.session().signedIn());
}

TEST_CASE("A turnover after the idle lock takes five keys", "[case-233]") {
  PinWindow desk;
  desk.enter(std::chrono::seconds(1));
  press(*desk.window, Qt::Key_F3);
  REQUIRE(desk.waitCovered());
  CHECK_FALSE(desk.session().isUnlocked());
  CHECK_FALSE(desk.reads(u"Mina"_s));
  desk.keys = 0;
  desk.type(hersPin);
  CHECK(desk.keys == 5);
  CHECK(desk.session().isUnlocked());
  CHECK(desk.shows(u"closeOutPage"_s));
}

TEST_CASE("With a timer running the names hide and every chair key works; then the lock follows",
          "[case-238]") {
  PinWindow desk(true);
  desk.enter(std::chrono::seconds(1));
  auto* chair = desk.window->findChild<ui::ChairPage*>();
  auto* timer = chair->findChild<ui::TimerView*>();
  REQUIRE(chair->isVisible());
  REQUIRE(desk.reads(u"Lupe"_s));
  press(*desk.window, Qt::Key_Space); // the etch
  REQUIRE(timer->isRunning());
  REQUIRE(QTest::qWaitFor([&] { return !desk.session().isUnlocked(); }, 5000));
  CHECK_FALSE(desk.isCovered());
  CHECK(chair->isVisible());
  CHECK(timer->isRunning());
  CHECK_FALSE(desk.reads(u"Lupe"_s));
  CHECK_FALSE(chair->findChild<ui::MessageStrip*>()->hasTrouble());
  desk.run(*timer, 20);
  press(*desk.window, Qt::Key_Space); // the rinse
  CHECK(timer->isRunning());
  const auto day = must(desk.session().openDayNow()).id;
  const auto fields = must(desk.session().fields(*chair->occupant(), day));
  CHECK(fields.front().protocol.teeth().front().etches == 1);
  desk.run(*timer, 10);
  REQUIRE_FALSE(timer->isRunning());
  CHECK_FALSE(desk.isCovered()); // teeth are open
  must(desk.session().stopTeeth(desk.window->book()->acting().by(), *desk.field,
                                {dentition::toothAt(16), dentition::toothAt(46)}, "ill"));
  REQUIRE(desk.waitCovered());
  desk.type(hersPin);
  CHECK(chair->isVisible());
  CHECK(desk.reads(u"Lupe"_s));
}

TEST_CASE("While names are hidden no other page is shown before the PIN", "[case-238]") {
  PinWindow desk(true);
  desk.enter(std::chrono::seconds(1));
  REQUIRE(QTest::qWaitFor([&] { return !desk.session().isUnlocked(); }, 5000));
  CHECK_FALSE(desk.isCovered());
  press(*desk.window, Qt::Key_F1);
  CHECK(desk.isCovered());
  CHECK(desk.shows(u"pinPad"_s));
  desk.type(hersPin);
  CHECK_FALSE(desk.isCovered());
}

TEST_CASE("Five wrong PINs and a sleep of the laptop ask for the passphrase", "[case-233]") {
  PinWindow desk;
  desk.enter();
  press(*desk.window, Qt::Key_F12);
  CHECK(desk.shows(u"pinPad"_s));
  for (int i = 0; i < 5; ++i) {
    CHECK_FALSE(desk.shows(u"coverPassphrase"_s));
    desk.type("9038");
    desk.clock.advance(std::chrono::seconds(31));
  }
  CHECK(desk.shows(u"coverPassphrase"_s));
  CHECK_FALSE(desk.shows(u"pinPad"_s));
  desk.give(Clinic::passphrase);
  desk.type(hersPin);
  CHECK_FALSE(desk.isCovered());
  desk.clock.sleep(std::chrono::minutes(30));
  REQUIRE(desk.waitCovered());
  CHECK(desk.shows(u"coverPassphrase"_s));
}

TEST_CASE("The PIN pad has keys that a gloved finger meets", "[case-233]") {
  PinWindow desk;
  desk.openAndUnlock();
  for (const auto& name : {u"pinKey0"_s, u"pinKey5"_s, u"pinKey9"_s, u"pinBack"_s, u"pinEnter"_s}) {
    const auto size = part<QPushButton>(*desk.window, name).size();
    CHECK(std::min(size.width(), size.height()) >= ui::style::pixelsFor(15));
  }
  for (const auto* digit = hersPin; *digit != 0; ++digit)
    QTest::mouseClick(&part<QPushButton>(*desk.window, u"pinKey%1"_s.arg(QLatin1Char(*digit))),
                      Qt::LeftButton);
  CHECK(words(*desk.window, u"pinDots"_s) == u"●●●●"_s);
  QTest::mouseClick(&part<QPushButton>(*desk.window, u"pinEnter"_s), Qt::LeftButton);
  CHECK(desk.shows(u"dayBoardPage"_s));
}

// To be looked at: test_ui "[.pictures]".
TEST_CASE("Signing in and hidden names as pictures", "[.pictures]") {
  PinWindow desk(true);
  desk.openAndUnlock();
  desk.window->resize(1366, 700);
  press(*desk.window, Qt::Key_2);
  const auto save = [&](const QString& name) { savePicture(*desk.window, name); };
  save(u"sign-in"_s);
  press(*desk.window, Qt::Key_Backspace);
  desk.type("9038");
  save(u"sign-in-wrong"_s);
  desk.clock.advance(std::chrono::seconds(2));
  desk.type(hersPin);
  press(*desk.window, Qt::Key_F8);
  save(u"desk-with-pins"_s);
  press(*desk.window, Qt::Key_F12);
  save(u"locked-by-pin"_s);
}

TEST_CASE("The cover asks whose passphrase it is, and then tries hers alone", "[case-310]") {
  constexpr auto hers = "heron over the weir";
  Window desk;
  std::optional<base::MemberId> hygienist;
  {
    Clinic clinic(desk.book(), session::BookKind::throwaway);
    hygienist = clinic.hygienist;
    must(clinic.session.enterKey({clinic.hygienist, {}}, hers));
    must(clinic.session.finish());
  }
  desk.open();
  desk.window->openBook(ui::toQt(desk.book().string()));
  CHECK(words(*desk.window, u"coverPerson"_s) == u"Anyone who may unlock"_s);
  press(*desk.window, Qt::Key_Down);
  CHECK(words(*desk.window, u"coverPerson"_s).contains(u"Oriel Fenwhistle"_s));

  SECTION("the logbook's own passphrase is not hers") {
    desk.give(Clinic::passphrase);
    CHECK(desk.isCovered());
    CHECK(words(*desk.window, u"coverTrouble"_s).contains(u"not the passphrase"_s));
    press(*desk.window, Qt::Key_Up);
    desk.give(Clinic::passphrase);
    CHECK_FALSE(desk.isCovered());
    CHECK_FALSE(desk.window->book()->session().openedBy());
  }
  SECTION("hers opens, and it is known who she is") {
    desk.give(hers);
    CHECK_FALSE(desk.isCovered());
    CHECK(desk.window->book()->session().openedBy() == hygienist);
  }
  SECTION("wrong several times it says how long to wait") {
    for (int i = 0; i < 8; ++i)
      desk.give("not her words");
    CHECK(desk.isCovered());
    CHECK(words(*desk.window, u"coverTrouble"_s).contains(u"second"_s));
  }
  SECTION("after a lock the choice begins again") {
    desk.give(hers);
    press(*desk.window, Qt::Key_F12);
    CHECK(desk.isCovered());
    CHECK(words(*desk.window, u"coverPerson"_s) == u"Anyone who may unlock"_s);
  }
}
