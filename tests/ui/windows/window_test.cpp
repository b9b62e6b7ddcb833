#include "ui/asking/qt_prompter.h"
#include "ui/board/today_page.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/safety/cautions_page.h"
#include "ui/widgets/message_strip.h"
#include "ui/widgets/timer_view.h"

#include <QComboBox>
#include <QListWidget>
#include <QRegularExpression>
#include <QStackedWidget>
#include <QStandardItemModel>

using namespace gk;
using namespace gk::test;

TEST_CASE("The passphrase can be typed as soon as a logbook is open", "[case-117]") {
  Window desk;
  desk.fill();
  desk.open();
  desk.window->openBook(ui::toQt(desk.book().string()));
  REQUIRE(desk.window->focusWidget() != nullptr);
  CHECK(desk.window->focusWidget()->objectName() == u"coverPassphrase"_s);
  QTest::keyClicks(desk.window->focusWidget(), QString::fromLatin1(Clinic::passphrase));
  press(*desk.window, Qt::Key_Return);
  CHECK_FALSE(desk.isCovered());
}

TEST_CASE("A wrong passphrase is said plainly and the right one opens the day board") {
  Window desk;
  desk.fill();
  desk.open();
  desk.window->openBook(ui::toQt(desk.book().string()));
  CHECK(desk.isCovered());
  desk.give("quiet gym door");
  CHECK(desk.isCovered());
  CHECK(words(*desk.window, u"coverTrouble"_s) ==
        u"✖ That is not the passphrase. Type it again."_s);
  desk.give(Clinic::passphrase);
  CHECK_FALSE(desk.isCovered());
  CHECK(desk.shows(u"dayBoardPage"_s));
}

TEST_CASE("A file that is no logbook is refused on the start page and nothing opens") {
  Window desk;
  must(base::replaceFile(desk.folder / "letter.gkbook", "Dear all"));
  desk.open();
  desk.window->openBook(ui::toQt((desk.folder / "letter.gkbook").string()));
  CHECK(desk.window->book() == nullptr);
  CHECK(words(*desk.window, u"startTrouble"_s).contains(u"not a logbook"_s));
}

TEST_CASE("The logbook opened last is one key away") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  desk.window.reset();
  desk.open();
  press(*desk.window, Qt::Key_R, Qt::AltModifier);
  CHECK(desk.window->book() != nullptr);
}

TEST_CASE("The title bar names no one") {
  Window desk;
  desk.fill(true);
  desk.openAndUnlock();
  CHECK(desk.window->windowTitle() == u"Groovekeeper"_s);
}

TEST_CASE("After a kill the window comes back to the child in the chair") {
  Window desk;
  desk.fill(true);
  desk.openAndUnlock();
  const auto* chair = desk.window->findChild<ui::ChairPage*>();
  CHECK(chair->isVisible());
  CHECK(chair->isOccupied());
}

TEST_CASE("Locked in the middle of a visit the chair goes on without a word about it") {
  Window desk;
  desk.fill(true);
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_F12);
  CHECK_FALSE(desk.reads(u"Lupe"_s));
  desk.give(Clinic::passphrase);
  const auto* chair = desk.window->findChild<ui::ChairPage*>();
  REQUIRE(chair->isVisible());
  CHECK(chair->isOccupied());
  CHECK_FALSE(chair->findChild<ui::MessageStrip*>()->hasTrouble());
}

TEST_CASE("Without a key the names are covered and the work goes on after unlocking") {
  Window desk;
  desk.fill();
  desk.idle = std::chrono::milliseconds(80);
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_F3);
  REQUIRE(desk.shows(u"closeOutPage"_s));
  REQUIRE(QTest::qWaitFor([&] { return desk.isCovered(); }, 5000));
  CHECK_FALSE(desk.window->book()->session().isUnlocked());
  CHECK_FALSE(desk.reads(u"Mina"_s));
  desk.give(Clinic::passphrase);
  CHECK(desk.shows(u"closeOutPage"_s));
}

TEST_CASE("A running timer stays in sight on the cover as numerals alone") {
  Window desk;
  desk.fill(true);
  desk.openAndUnlock();
  auto* timer = desk.window->findChild<ui::ChairPage*>()->findChild<ui::TimerView*>();
  REQUIRE(timer != nullptr);
  timer->start(u"Etch"_s, base::Seconds(20));
  desk.clock.advance(base::Seconds(7));
  press(*desk.window, Qt::Key_F12);
  REQUIRE(desk.isCovered());
  REQUIRE(QTest::qWaitFor([&] { return desk.shows(u"coverTimer"_s); }, 2000));
  CHECK(words(*desk.window, u"coverTimer"_s) == u"7.0"_s);
  CHECK_FALSE(desk.reads(u"Lupe"_s));
  timer->stop();
}

TEST_CASE("One key hides the screen and the same key shows it again") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  press(*desk.window, Qt::Key_F11);
  CHECK(desk.isCovered());
  CHECK_FALSE(desk.shows(u"coverPassphrase"_s));
  press(*desk.window, Qt::Key_F11);
  CHECK_FALSE(desk.isCovered());
  press(*desk.window, Qt::Key_F12);
  press(*desk.window, Qt::Key_F11);
  CHECK(desk.isCovered()); // a lock is not lifted by it
}

TEST_CASE("A clock behind the logbook is said in the strip", "[case-21]") {
  Window desk;
  desk.fill();
  desk.clock.setWall(base::atLocal(*base::Date::parse("2025-01-01"), std::chrono::hours(9),
                                   std::chrono::hours(-5)));
  desk.openAndUnlock();
  CHECK(desk.window->book()
            ->findChild<ui::MessageStrip*>(u"messageStrip"_s)
            ->text()
            .contains(u"Jan 1, 2025"_s));
}

TEST_CASE("Each page is one key away") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  for (const auto& [key, page] : {std::pair(Qt::Key_F3, u"closeOutPage"_s),
                                  {Qt::Key_F4, u"totalsPage"_s},
                                  {Qt::Key_F5, u"todayPage"_s},
                                  {Qt::Key_F6, u"cautionsPage"_s},
                                  {Qt::Key_F7, u"incidentPage"_s},
                                  {Qt::Key_F9, u"readinessPage"_s},
                                  {Qt::Key_F10, u"laptopPage"_s},
                                  {Qt::Key_F1, u"dayBoardPage"_s}}) {
    press(*desk.window, key);
    CHECK(desk.shows(page));
  }
  press(*desk.window, Qt::Key_F2);
  CHECK(desk.window->findChild<ui::ChairPage*>()->isVisible());
}

TEST_CASE("Who is at work is chosen once and acts from then on") {
  Desk desk;
  const auto expired =
      must(desk.clinic.session.enterLot(desk.clinic.by, {kit::MaterialKind::sealantLightCure,
                                                         "Resin Fern",
                                                         "RF-2512",
                                                         *base::parseExpiry("2026-10"),
                                                         base::Seconds(20),
                                                         {},
                                                         false,
                                                         {}}));
  ui::TodayPage page(desk.context, nullptr);
  showActive(page);
  CHECK(desk.acting.now().isolation == chairside::Isolation::rollsWithHolders);
  CHECK(desk.acting.now().fourHanded);
  auto& assistant = part<QComboBox>(page, u"todayAssistant"_s);
  assistant.setFocus();
  press(page, Qt::Key_End);
  CHECK(desk.acting.now().assistant.has_value());
  CHECK(desk.acting.now().author == desk.clinic.hygienist);
  auto& sealant = part<QComboBox>(page, u"todaySealant"_s);
  const auto place = sealant.findText(u"RF-2512"_s, Qt::MatchContains);
  REQUIRE(place > 0);
  CHECK(sealant.itemText(place).endsWith(u"EXPIRED"_s));
  CHECK_FALSE(qobject_cast<QStandardItemModel*>(sealant.model())->item(place)->isEnabled());
  sealant.setFocus();
  for (int i = 0; i < sealant.count(); ++i) {
    press(page, Qt::Key_Down);
    CHECK(desk.acting.now().sealant != expired);
  }
}

TEST_CASE("Each caution ends with who comes first") {
  ui::CautionsPage page(nullptr);
  auto& names = part<QListWidget>(page, u"cautionNames"_s);
  REQUIRE(names.count() >= 18);
  for (int row = 0; row < names.count(); ++row) {
    names.setCurrentRow(row);
    CHECK(words(page, u"cautionWords"_s)
              .endsWith(u"Your state practice act, program protocol and the manufacturer's "
                        "instructions come first."_s));
  }
}

TEST_CASE("Every page fits a small laptop in letters of 14 pixels or more and shows its keys") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  const QRegularExpression key(u"  (F\\d+|Alt\\+(Shift\\+)?\\w|Ctrl\\+Enter|Esc|Enter|\\w)$"_s);
  for (const auto page : {Qt::Key_F1, Qt::Key_F3, Qt::Key_F4, Qt::Key_F5, Qt::Key_F6, Qt::Key_F7,
                          Qt::Key_F9, Qt::Key_F10}) {
    press(*desk.window, page);
    INFO(QKeySequence(page).toString().toStdString());
    CHECK(desk.window->minimumSizeHint().width() <= 1366);
    CHECK(desk.window->minimumSizeHint().height() <= 740);
    for (const auto* widget : desk.window->findChildren<QWidget*>()) {
      if (!widget->isVisible()) continue;
      INFO(widget->metaObject()->className() << ' ' << widget->objectName().toStdString());
      CHECK(QFontInfo(widget->font()).pixelSize() >= 14);
      const auto* button = qobject_cast<const QPushButton*>(widget);
      if (button) CHECK(key.match(button->text()).hasMatch());
      if (button || qobject_cast<const QLineEdit*>(widget) ||
          qobject_cast<const QComboBox*>(widget))
        CHECK_FALSE((widget->accessibleName() + (button ? button->text() : QString())).isEmpty());
    }
  }
}
