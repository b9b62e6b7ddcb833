#include "reports/records/inputs.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/widgets/timer_view.h"

#include <QTableView>

// Cases that need the whole window: what is seen before, after and instead of the chair.

using namespace gk;
using namespace gk::test;

namespace {

/// The whole window on a clinic's day, with someone at work.
class Morning : public Window {
 public:
  std::optional<roster::ChildId> mina;
  std::optional<roster::DayId> day;

  Morning() {
    Clinic clinic(book(), session::BookKind::throwaway);
    mina = clinic.child("Mina", "Tolliver-Reed");
    day = clinic.day;
    setup_.author = clinic.hygienist;
    setup_.recorder = clinic.assistant;
    setup_.sealant = clinic.resin;
    setup_.etchant = clinic.etchant;
    setup_.light = clinic.light;
    must(clinic.session.finish());
  }

  void start() {
    openAndUnlock();
    window->book()->acting().change(setup_);
  }
  session::Session& session() { return window->book()->session(); }
  ui::ChairPage& chair() { return *window->findChild<ui::ChairPage*>(); }
  void key(Qt::Key which) { press(*window, which); }
  /// As slowly as hands; a key that means nothing lets go of the last one, which might be a scan's.
  void keys(const char* letters) {
    for (const char* letter = letters; *letter != 0; ++letter) {
      clock.advance(std::chrono::milliseconds(60));
      QTest::keyClick(window->focusWidget(), *letter);
    }
    key(Qt::Key_CapsLock);
  }
  void run(int seconds) {
    for (int i = 0; i < seconds; ++i) {
      clock.advance(std::chrono::seconds(1));
      chair().findChild<ui::TimerView*>()->tick();
    }
  }

 private:
  ui::Setup setup_;
};

} // namespace

TEST_CASE("A child who answers to another name is not seated and the board says why", "[case-14]") {
  Morning desk;
  desk.start();
  desk.key(Qt::Key_Return); // the first child of the board
  REQUIRE(desk.shows(u"identityPanel"_s));
  CHECK(desk.reads(u"Never say the name first"_s));
  desk.key(Qt::Key_Return); // nothing agrees yet
  CHECK(desk.shows(u"identityPanel"_s));
  desk.key(Qt::Key_Delete);
  REQUIRE(desk.shows(u"dayBoardPage"_s));
  CHECK(desk.reads(u"nothing was opened"_s));
  CHECK_FALSE(desk.chair().isOccupied());
  CHECK(must(desk.session().dayRecords(*desk.day)).seatings.empty());
}

TEST_CASE("After a power cut in a cure the window comes back to that child, step and light",
          "[case-68]") {
  Morning desk;
  desk.start();
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Left);
  desk.key(Qt::Key_Return);
  desk.keys("ZSSSS444");
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Return); // dry
  desk.key(Qt::Key_Space);
  desk.run(20);
  desk.key(Qt::Key_Space);
  desk.run(10);
  desk.keys("5");
  desk.key(Qt::Key_Space); // flowed, and the light is on
  desk.run(11);
  REQUIRE(desk.chair().isTiming());
  desk.window.reset();

  desk.start();
  REQUIRE(desk.chair().isVisible());
  REQUIRE(desk.shows(u"fieldPanel"_s));
  CHECK_FALSE(desk.chair().isTiming());
  CHECK(desk.reads(u"Mina"_s));
  CHECK(desk.chair().findChild<ui::TimerView*>()->title().contains(u"INTERRUPTED, NOT CURED"_s));
  desk.key(Qt::Key_Return);
  const auto fields = must(desk.session().fields(*desk.mina, *desk.day));
  REQUIRE(fields.size() == 1);
  CHECK_FALSE(fields[0].running.has_value());
  const auto& tooth = fields[0].protocol.teeth().front();
  CHECK(tooth.interruptedCures == 1);
  CHECK(tooth.cures == 0);
  CHECK(tooth.next == chairside::Next::cure);
}

TEST_CASE("The runner's list shows, prints and saves names and rooms of those to fetch",
          "[case-86]") {
  Morning desk;
  desk.start();
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Left);
  desk.key(Qt::Key_Return); // Mina sits in the chair, so no one is to be fetched
  desk.key(Qt::Key_F1);
  press(*desk.window, Qt::Key_U, Qt::AltModifier);
  REQUIRE(desk.shows(u"runnersPage"_s));
  auto& table = part<QTableView>(*desk.window, u"runnersTable"_s);
  CHECK(table.model()->rowCount() == 0);
  CHECK(desk.reads(u"0 to bring"_s));
  desk.key(Qt::Key_Escape);
  REQUIRE(part<QWidget>(*desk.window, u"boardTable"_s).isVisible());
  const auto mina = must(desk.session().childInChair(must(desk.session().openDayNow()).id));
  CHECK(must(desk.session().undo(desk.window->book()->acting().by(),
                                 {base::Station::chair, must(desk.session().openDayNow()).id,
                                  mina.value()})) == "Identity confirmed, Mina T.");
  press(*desk.window, Qt::Key_U, Qt::AltModifier);
  CHECK(table.model()->columnCount() == 2);
  REQUIRE(table.model()->rowCount() == 1);
  CHECK(table.model()->index(0, 1).data().toString() == u"Mina Tolliver-Reed"_s);

  desk.prompter->prints = {true};
  press(*desk.window, Qt::Key_P, Qt::AltModifier);
  CHECK(QTest::qWaitFor([&] { return !desk.window->work().isBusy(); }, 20000));
  CHECK(desk.prompter->printed.startsWith("%PDF"));
  CHECK(desk.reads(u"The runner's list is printed and counted out."_s));
  desk.prompter->choices = {1}; // plain
  desk.prompter->files = {ui::toQt((desk.folder / "hall.csv").string())};
  press(*desk.window, Qt::Key_S, Qt::AltModifier);
  CHECK(QTest::qWaitFor([&] { return !desk.window->work().isBusy(); }, 20000));
  CHECK(must(base::readFile(desk.folder / "hall.csv")) == "Room,Name\r\n6,Mina Tolliver-Reed\r\n");
}

TEST_CASE("Back from the chair, Enter takes the next child who waits") {
  Morning desk;
  desk.start();
  desk.key(Qt::Key_Return); // Mina is the first to be seated
  desk.keys("1");
  desk.key(Qt::Key_Return);
  desk.keys("P"); // parked, so that no one sits in the chair
  auto& table = part<QTableView>(*desk.window, u"boardTable"_s);
  REQUIRE(table.isVisible());
  CHECK(table.currentIndex().row() == 1); // the first under its heading
}

TEST_CASE("A message above the day board leaves its bottom keys on a small screen") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  desk.window->resize(1366, 740);
  QCoreApplication::processEvents();
  for (const bool message : {false, true}) {
    if (message) test::press(*desk.window, Qt::Key_A, Qt::AltModifier); // says what was noted
    QCoreApplication::processEvents();
    const auto& undo = part<QWidget>(*desk.window, u"boardUndo"_s);
    INFO(message << ' ' << undo.visibleRegion().boundingRect().height() << " of " << undo.height());
    CHECK(undo.visibleRegion().boundingRect() == undo.rect());
  }
}
