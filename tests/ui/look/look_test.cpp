#include "base/files/files.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/cells.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/keys/cap_button.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/mouth/mouth_map.h"
#include "ui/mouth/surface_target.h"
#include "ui/mouth/tooth_tile.h"

#include <QCheckBox>
#include <QListWidget>
#include <QScrollArea>
#include <QScrollBar>
#include <QTabWidget>
#include <QTableView>

using namespace gk;
using namespace gk::test;
using ui::Scheme;

namespace {

/// The usual look again, whatever a test wore.
struct UndressAfter {
  ~UndressAfter() { ui::dress(); }
};

/// Fails for a tick or a line of a list whose words are cut.
void checkLinesWhole(const QWidget& page, const char* stage) {
  for (const auto* tick : page.findChildren<QCheckBox*>()) {
    if (!tick->isVisible()) continue;
    INFO(ui::lookNow().percent << " %, " << stage << ", tick " << tick->text().toStdString());
    CHECK(tick->sizeHint().width() <= tick->width());
  }
  for (const auto* choice : page.findChildren<QComboBox*>()) {
    if (!choice->isVisible()) continue;
    INFO(ui::lookNow().percent << " %, " << stage << ", choice "
                               << choice->objectName().toStdString() << ": "
                               << choice->currentText().toStdString());
    const auto* box = qobject_cast<const ui::ChoiceBox*>(choice);
    REQUIRE(box != nullptr);
    CHECK((box->hasRoomFor(box->currentText()) || box->isTooLong(box->currentText())));
  }
  for (const auto* list : page.findChildren<QListWidget*>()) {
    if (!list->isVisible() || list->wordWrap()) continue;
    for (int row = 0; row < list->count(); ++row) {
      INFO(ui::lookNow().percent << " %, " << stage << ", line "
                                 << list->item(row)->text().toStdString());
      CHECK(list->sizeHintForIndex(list->model()->index(row, 0)).width() <=
            list->viewport()->width());
    }
  }
}

/// Fails for words that are cut. What a scroll area holds may be out of sight, not cut.
void checkNothingClipped(const QWidget& page, const char* stage) {
  QCoreApplication::processEvents();
  QTest::qWait(1); // columns are fitted once a page stands
  checkLinesWhole(page, stage);
  {
    INFO(ui::lookNow().percent << " %, " << stage);
    checkTablesWhole(page);
  }
  for (const auto* widget : page.findChildren<QWidget*>()) {
    if (!widget->isVisible()) continue;
    const auto* label = qobject_cast<const QLabel*>(widget);
    const auto* button = qobject_cast<const QPushButton*>(widget);
    const auto words = label ? label->text() : button ? button->text() : QString();
    if (words.isEmpty()) continue;
    INFO(ui::lookNow().percent << " %, " << stage << ": " << words.toStdString() << ", has "
                               << widget->width() << 'x' << widget->height());
    if (label && label->wordWrap()) {
      CHECK(label->heightForWidth(label->width()) <= label->height());
      continue;
    }
    if (const auto* cap = qobject_cast<const ui::CapButton*>(widget)) {
      CHECK(cap->hasRoom());
      continue;
    }
    if (label && label->sizePolicy().horizontalPolicy() == QSizePolicy::Ignored) {
      CHECK(label->fontMetrics().horizontalAdvance(words) <= label->width());
      continue;
    }
    CHECK(widget->sizeHint().width() <= widget->width());
    CHECK(widget->sizeHint().height() <= widget->height());
  }
}

bool isInSight(const QWidget& page, const QWidget& part) {
  const QRect box(part.mapTo(&page, QPoint(0, 0)), part.size());
  return part.isVisible() && page.rect().contains(box);
}

} // namespace

TEST_CASE("Fifteen millimetres are as many pixels as the screen says, or as the usual screen has") {
  CHECK(ui::style::pixelsFor(15, 96) == 57);
  CHECK(ui::style::pixelsFor(15, 135) == 80); // 1366x768 at 11.6 inches
  CHECK(ui::style::pixelsFor(25.4, 100) == 100);
  for (const double nonsense : {0.0, -3.0, 7.0, 2000.0})
    CHECK(ui::style::pixelsFor(15, nonsense) == 57);
}

TEST_CASE("A look is worn at once by what is open, and the usual one comes back") {
  const UndressAfter after;
  ui::dress();
  QLabel label(u"Mina"_s);
  label.show();
  const auto usual = label.sizeHint();
  int fits = 0;
  ui::style::whenDressed(&label, [&] { ++fits; });
  CHECK(fits == 1);
  ui::dress({Scheme::dark, 200});
  CHECK(ui::lookNow() == ui::Look{Scheme::dark, 200});
  CHECK(fits == 2);
  CHECK(label.sizeHint().height() > usual.height() * 17 / 10);
  CHECK(QColor(label.grab().toImage().pixel(label.width() - 1, 0)) ==
        ui::style::colors(Scheme::dark).ground);
  ui::dress();
  CHECK(label.sizeHint() == usual);
  ui::dress({Scheme::light, 900});
  CHECK(ui::lookNow().percent == 200);
}

TEST_CASE("Every surface and key of the chair is a target for a glove, apart from the next") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina", "Tolliver-Reed"));
  const auto stage = [&](const char* name) {
    QCoreApplication::processEvents();
    std::vector<QRect> boxes;
    const auto take = [&](const QWidget* target) {
      if (!target->isVisible()) return;
      INFO(name << ' ' << target->objectName().toStdString());
      CHECK(target->width() >= ui::style::pixelsFor(15));
      CHECK(target->height() >= ui::style::pixelsFor(15));
      boxes.emplace_back(target->mapTo(chair.page.get(), QPoint(0, 0)), target->size());
    };
    for (const auto* target : chair.page->findChildren<ui::SurfaceTarget*>())
      take(target);
    for (const auto* target : chair.page->findChildren<QPushButton*>())
      take(target);
    const int gap = ui::style::pixelsFor(3);
    for (std::size_t i = 0; i < boxes.size(); ++i)
      for (std::size_t j = i + 1; j < boxes.size(); ++j) {
        INFO(name << ' ' << i << ' ' << j << ", " << boxes[i].x() << ',' << boxes[i].bottom()
                  << " and " << boxes[j].x() << ',' << boxes[j].top());
        CHECK_FALSE(boxes[i].adjusted(-gap + 1, -gap + 1, gap - 1, gap - 1).intersects(boxes[j]));
      }
  };
  stage("screening");
  chair.screenFour();
  stage("keep dry");
  chair.press(Qt::Key_Return);
  stage("etch");
}

TEST_CASE("No words are cut at 100, 150 and 200 percent in any page around the chair") {
  const UndressAfter after;
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  for (const auto size : {QSize(1366, 700), QSize(1920, 1050)})
    for (const int percent : {100, 150, 200}) {
      ui::dress({Scheme::light, percent});
      QCoreApplication::processEvents(); // laid out again, and then made smaller
      // At 200 % a small laptop's window has its usual height.
      desk.window->resize(size.width(),
                          percent > 150 ? std::max(size.height(), 740) : size.height());
      for (const auto page : {Qt::Key_F1, Qt::Key_F3, Qt::Key_F4, Qt::Key_F5, Qt::Key_F6,
                              Qt::Key_F7, Qt::Key_F8, Qt::Key_F9, Qt::Key_F10}) {
        test::press(*desk.window, page);
        QCoreApplication::processEvents();
        desk.window->resize(size); // what a page before it held open is let go
        QCoreApplication::processEvents();
        INFO(percent << ' ' << QKeySequence(page).toString().toStdString());
        CHECK(desk.window->width() <= size.width());
        checkNothingClipped(*desk.window, QKeySequence(page).toString().toLatin1().constData());
      }
      test::press(*desk.window, Qt::Key_F1);
      test::press(*desk.window, Qt::Key_U, Qt::AltModifier);
      checkNothingClipped(*desk.window, "runner's list");
      const auto& back = part<QWidget>(*desk.window, u"runnersBack"_s);
      const auto seen = back.visibleRegion().boundingRect();
      INFO(size.width() << " at " << percent << ": " << seen.width() << ' ' << seen.height()
                        << " of " << back.width() << ' ' << back.height());
      CHECK(seen == back.rect());
      test::press(*desk.window, Qt::Key_Escape);
    }
}

TEST_CASE("No words are cut in what the desk leads to, at 100 and 150 percent on a small laptop",
          "[case-451]") {
  const UndressAfter after;
  const QSize small(1366, 700);
  const int percent = GENERATE(100, 150);
  Window desk;
  desk.fill();
  const auto list = desk.folder / "list.csv";
  must(base::replaceFile(list, "First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2,6\n"
                               "Jo,Sedge,2019-06-31,2,6\nMina,Marlowe,2019-03-14,2,6\n"));
  desk.openAndUnlock();
  ui::dress({Scheme::light, percent});
  const auto look = [&](const QString& place) {
    QCoreApplication::processEvents();
    desk.window->resize(small); // what a page before it held open is let go
    QCoreApplication::processEvents();
    INFO(percent << " %, " << place.toStdString());
    CHECK(desk.window->size() == small);
    checkNothingClipped(*desk.window, place.toUtf8().constData());
  };
  const auto go = [&](Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    test::press(*desk.window, key, with);
    QCoreApplication::processEvents();
  };
  const auto opens = [&](const QString& page) {
    INFO(page.toStdString());
    REQUIRE(desk.shows(page));
    look(page);
  };
  go(Qt::Key_F, Qt::ControlModifier);
  opens(u"formDeskPage"_s);
  go(Qt::Key_C, Qt::AltModifier);
  opens(u"formCountPage"_s);
  go(Qt::Key_L, Qt::AltModifier);
  opens(u"handoutsPage"_s);
  go(Qt::Key_P, Qt::ControlModifier);
  opens(u"printsPage"_s);
  go(Qt::Key_T, Qt::ControlModifier);
  opens(u"calendarPage"_s);
  go(Qt::Key_F8);
  opens(u"deskPage"_s);
  auto& areas = part<QListWidget>(*desk.window, u"deskAreas"_s);
  for (int row = 0; row < areas.count(); ++row) {
    areas.setCurrentRow(row);
    const auto area = areas.item(row)->text();
    look(area);
    for (const auto key : {Qt::Key_N, Qt::Key_E}) { // adding one, and correcting the first
      for (auto* table : desk.window->findChildren<QTableView*>())
        if (table->isVisible()) table->setCurrentIndex(table->model()->index(0, 0));
      go(key, Qt::AltModifier);
      look(area + u", a form"_s);
      go(Qt::Key_Escape);
    }
    test::press(*desk.window, Qt::Key_F1, Qt::ShiftModifier);
    opens(u"helpOverlay"_s);
    go(Qt::Key_Tab);
    look(u"help"_s);
    go(Qt::Key_Escape);
  }
  desk.window->findChild<ui::DeskPage*>()->turnTo(session::Area::rosters);
  go(Qt::Key_I, Qt::AltModifier);
  desk.prompter->files = {ui::toQt(list.string())};
  look(u"the choice of a list"_s);
  go(Qt::Key_S, Qt::AltModifier);
  opens(u"listPage"_s);
  auto& tabs = part<QTabWidget>(*desk.window, u"listTabs"_s);
  for (int tab = 0; tab < tabs.count(); ++tab) {
    tabs.setCurrentIndex(tab);
    look(tabs.tabText(tab));
  }
}

TEST_CASE("No words are cut on a first run, at 100 and 150 percent on a small laptop",
          "[case-482]") {
  const UndressAfter after;
  const QSize small(1366, 700);
  const int percent = GENERATE(100, 150);
  Window desk;
  desk.open();
  ui::dress({Scheme::light, percent});
  const auto look = [&](const char* place) {
    QCoreApplication::processEvents();
    desk.window->resize(small);
    QCoreApplication::processEvents();
    INFO(percent << " %, " << place);
    CHECK(desk.window->size() == small);
    checkNothingClipped(*desk.window, place);
  };
  const auto fill = [&](const char* name, const QString& text) {
    part<QLineEdit>(*desk.window, QString::fromLatin1(name)).setText(text);
  };
  look("start");
  fill("startPassphrase", u"quiet gym floor"_s);
  fill("startAgain", u"quiet gym floor"_s);
  test::press(*desk.window, Qt::Key_M, Qt::AltModifier);
  REQUIRE(desk.shows(u"programPage"_s));
  look("program");
  fill("programName", u"Larkmere County Team"_s);
  fill("programCounty", u"Larkmere"_s);
  fill("programPhone", u"000-555-0142"_s);
  desk.prompter->files = {ui::toQt(desk.book().string())};
  test::press(*desk.window, Qt::Key_M, Qt::AltModifier);
  REQUIRE(desk.window->book() != nullptr);
  REQUIRE(desk.shows(u"firstDayPage"_s));
  look("check list");
  test::press(*desk.window, Qt::Key_Return);
  look("the first thing that is missing");
}

TEST_CASE("In large letters the timer, the name, the key strip and the due tooth stay in sight") {
  const UndressAfter after;
  for (const auto size : {QSize(1366, 690), QSize(1920, 1000)})
    for (const int percent : {100, 150, 200}) {
      ui::dress({Scheme::light, percent});
      Chair chair;
      chair.page->resize(size);
      const auto mina = chair.clinic.child("Mina", "Tolliver-Reed");
      REQUIRE(chair.page->take(mina, chair.clinic.day));
      checkNothingClipped(*chair.page, "identity");
      chair.press(Qt::Key_Left);
      chair.press(Qt::Key_Return);
      chair.press("ZSE");
      checkNothingClipped(*chair.page, "screening");
      chair.press("SS444");
      checkNothingClipped(*chair.page, "screened");
      chair.press(Qt::Key_Return);
      checkNothingClipped(*chair.page, "keep dry");
      chair.press(Qt::Key_Return);
      chair.etchToFrosty();
      chair.press(Qt::Key_Space);
      chair.run(7);
      checkNothingClipped(*chair.page, "curing");
      INFO(size.width() << ' ' << percent);
      CHECK(chair.page->width() == size.width());
      CHECK(chair.page->height() == size.height());
      // A stop key belongs in sight, and not only within what scrolls.
      const auto* stop = chair.page->findChild<QWidget*>(u"lightStoppedButton"_s);
      REQUIRE(stop != nullptr);
      CHECK(isInSight(*chair.page, *stop));
      CHECK(stop->visibleRegion().boundingRect() == stop->rect());
      for (const auto& name : {u"timerView"_s, u"chairHeader"_s, u"alwaysBar"_s, u"tile16"_s})
        CHECK(isInSight(*chair.page, *chair.page->findChild<QWidget*>(name)));
    }
}

TEST_CASE("The timer has room for its own words at every size of letters") {
  const UndressAfter after;
  for (const auto size : {QSize(1366, 690), QSize(1920, 1000)})
    for (const int percent : {100, 150, 200}) {
      ui::dress({Scheme::light, percent});
      Chair chair;
      chair.page->resize(size);
      chair.seat(chair.clinic.child("Mina", "Tolliver-Reed"));
      chair.screenFour();
      chair.press(Qt::Key_Return);
      const auto* timer = chair.page->findChild<ui::TimerView*>();
      const auto check = [&] {
        QCoreApplication::processEvents();
        INFO(percent << " %: " << timer->title().toStdString() << " / "
                     << timer->note().toStdString() << " in " << timer->width());
        CHECK(timer->hasRoom());
      };
      check(); // ready to etch two teeth
      chair.press(Qt::Key_Space);
      check();
      chair.run(20);
      chair.press(Qt::Key_Space);
      check(); // the rinse
      chair.run(10);
      chair.press("5");
      CHECK_FALSE(timer->note().isEmpty());
      check(); // the eye reminder
      chair.press(Qt::Key_Space);
      check();
    }
}

TEST_CASE("What large letters push out of sight comes back with Ctrl and an arrow") {
  const UndressAfter after;
  ui::dress({Scheme::light, 200});
  Chair chair;
  chair.seat(chair.clinic.child("Mina", "Tolliver-Reed"));
  QCoreApplication::processEvents();
  const auto areas = chair.page->findChildren<QScrollArea*>(u"panelScroll"_s);
  const auto shown = std::ranges::find_if(areas, &QWidget::isVisible);
  REQUIRE(shown != areas.end());
  const auto* bar = (*shown)->verticalScrollBar();
  REQUIRE(bar->maximum() > 0);
  QTest::keyClick(chair.page.get(), Qt::Key_Down, Qt::ControlModifier);
  CHECK(bar->value() > 0);
  QTest::keyClick(chair.page.get(), Qt::Key_Up, Qt::ControlModifier);
  CHECK(bar->value() == 0);
}
