#include "ui/chair/chair_page.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/fixtures/window_keys.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/key_bar.h"
#include "ui/look/style.h"
#include "ui/mouth/tooth_tile.h"
#include "ui/widgets/message_strip.h"
#include "ui/widgets/timer_view.h"

#include <QPushButton>

#include <algorithm>
#include <map>

using namespace gk;
using namespace gk::test;

namespace {

constexpr QSize smallScreen(1366, 700);

/// The whole window on a small laptop with a child in the chair who has an allergy, and at every
/// step a look at what has to stay in sight and in its place.
class SmallLaptop : public Window {
 public:
  explicit SmallLaptop(int percent) {
    {
      Clinic clinic(book(), session::BookKind::throwaway);
      const auto child = clinic.child("Mina", "Tolliver-Reed");
      must(clinic.session.enterFlag(clinic.by,
                                    {child, roster::FlagKind::latexAllergy,
                                     roster::FlagAction::stop, "rash from gloves", false, ""}));
      author.emplace(clinic.hygienist);
      setup.assistant = clinic.assistant;
      setup.sealant = clinic.resin;
      setup.etchant = clinic.etchant;
      setup.varnish = clinic.varnish;
      setup.light = clinic.light;
      must(clinic.session.finish());
    }
    openAndUnlock();
    setup.author = author;
    window->book()->acting().change(setup);
    ui::dress({ui::Scheme::light, percent});
    QCoreApplication::processEvents();
    window->resize(smallScreen);
    press(*window, Qt::Key_Return);
    chair = window->findChild<ui::ChairPage*>();
    REQUIRE(chair->isOccupied());
  }
  ~SmallLaptop() { ui::dress(); }

  void keys(const char* letters) {
    for (const char* letter = letters; *letter != 0; ++letter)
      key(static_cast<Qt::Key>(*letter));
  }
  void key(Qt::Key which) {
    clock.advance(std::chrono::milliseconds(300)); // as hands, no scan
    QTest::keyClick(chair, which);
    QTest::keyClick(chair, Qt::Key_CapsLock);
    QCoreApplication::processEvents();
  }
  void run(int seconds) {
    auto* timer = chair->findChild<ui::TimerView*>();
    for (int i = 0; i < seconds; ++i) {
      clock.advance(std::chrono::seconds(1));
      timer->tick();
    }
  }

  /// What is always there, what stops and what goes on; `notYet`: nothing can go on here so far.
  enum class Goes { on, notYet };
  void look(const char* step, Goes goes = Goes::on) {
    auto* strip = chair->findChild<ui::MessageStrip*>();
    strip->post(ui::describe({base::ErrorCode::ruleCure,
                              "a sentence of the usual length, with what to do about it now"}));
    QCoreApplication::processEvents();
    QTest::qWait(1); // what is brought into sight is, once it is laid out
    const auto& words = part<QLabel>(*chair, u"messageText"_s);
    const QRect said(words.mapTo(chair, QPoint()), words.size());
    INFO(ui::lookNow().percent << " %, " << step);
    CHECK(window->size() == smallScreen);
    CHECK(words.isVisible());
    CHECK(keysTakenAway(*window).join(u", "_s) == QString());
    for (auto* button : chair->findChildren<QPushButton*>()) {
      if (!button->isVisible()) continue;
      const QRect box(button->mapTo(chair, QPoint()), button->size());
      INFO(button->objectName().toStdString()
           << ' ' << box.top() << " to " << box.bottom() << ", the message " << said.top() << " to "
           << said.bottom());
      CHECK_FALSE(said.intersects(box));
      const auto look = button->property("look").toString();
      const bool isAlways = button->parentWidget()->objectName() == u"alwaysBar"_s;
      const bool goesOn = look == u"main"_s && goes == Goes::on;
      if (goesOn || look == u"alarm"_s || isAlways)
        CHECK(button->visibleRegion().boundingRect() == button->rect());
    }
    isLargeEnough();
    for (const auto* always : {"wetButton", "stopChildButton", "undoButton", "parkButton"})
      keeps(always, *chair->findChild<QWidget*>(QString::fromLatin1(always)), step);
    for (const auto* tile : chair->findChildren<ui::ToothTile*>())
      if (tile->isVisible()) keeps(tile->objectName().toStdString(), *tile, step);
    strip->dismiss();
  }
  /// For gloves and for eyes an arm's length away: targets of 15 mm at 96 dpi; 20 px for keys and
  /// what is said, 18 for second lines, 28 for the step.
  void isLargeEnough() {
    for (const auto* button : chair->findChildren<QPushButton*>()) {
      if (!button->isVisible()) continue;
      INFO(button->objectName().toStdString() << ' ' << button->width() << 'x' << button->height());
      CHECK(button->width() >= ui::style::pixelsFor(15, 96));
      CHECK(button->height() >= ui::style::pixelsFor(15, 96));
      CHECK(button->font().pixelSize() >= 20);
    }
    for (const auto* label : chair->findChildren<QLabel*>()) {
      if (!label->isVisible() || label->text().isEmpty()) continue;
      const auto look = label->property("look").toString();
      INFO(label->objectName().toStdString()
           << ' ' << look.toStdString() << ' ' << label->text().toStdString());
      CHECK(label->font().pixelSize() >= (look == u"head"_s ? 28 : 18));
    }
  }
  /// The keys led where they should: what was looked at before is no look at a refused step.
  void isAt(const QString& panel) {
    INFO(ui::lookNow().percent << " %, " << panel.toStdString());
    REQUIRE(part<QWidget>(*chair, panel).isVisible());
  }
  void inSight(const QString& name) {
    const auto labels = chair->findChildren<QLabel*>(name);
    const auto shown = std::ranges::find_if(labels, &QWidget::isVisible);
    INFO(ui::lookNow().percent << " %, " << name.toStdString());
    REQUIRE(shown != labels.end());
    const auto& label = **shown;
    INFO(name.toStdString() << ' ' << label.text().toStdString());
    CHECK(label.visibleRegion().boundingRect() == label.rect());
    CHECK(label.heightForWidth(label.width()) <= label.height());
  }

  ui::ChairPage* chair = nullptr;

 private:
  void keeps(const std::string& name, const QWidget& widget, const char* step) {
    const QRect box(widget.mapTo(window.get(), QPoint()), widget.size());
    const auto [place, isNew] = places_.emplace(name, box);
    INFO(name << " at " << step << ": " << box.x() << ',' << box.y() << ' ' << box.width() << 'x'
              << box.height() << ", was " << place->second.x() << ',' << place->second.y() << ' '
              << place->second.width() << 'x' << place->second.height());
    CHECK(box == place->second);
  }

  std::optional<base::MemberId> author;
  ui::Setup setup;
  std::map<std::string, QRect> places_;
};

} // namespace

TEST_CASE("With an alert and a message up no step moves a tile, covers a key or hides what goes on",
          "[case-302][case-402][case-481]") {
  const int percent = GENERATE(100, 150);
  SmallLaptop desk(percent);
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
