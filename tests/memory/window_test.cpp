#include "base/files/files.h"
#include "memory/traces.h"
#include "ui/asking/long_work.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/window_fixture.h"

#include <QApplication>
#include <QClipboard>
#include <QListWidget>
#include <QTableView>
#include <iostream>

using namespace gk;
using namespace gk::test;

namespace {

constexpr int windowChildren = 20;

[[gnu::noinline]] void makeWindowBook(const base::Path& path) {
  Clinic clinic(path, session::BookKind::throwaway);
  for (int i = 0; i < windowChildren; ++i) {
    session::Identity identity{.first = canary(Canary::first, i),
                               .last = canary(Canary::last, i),
                               .birth = must(base::Date::parse("2019-03-14"))};
    identity.guardians.push_back({.name = canary(Canary::guardian, i),
                                  .relation = "mother",
                                  .phone = canary(Canary::phone, i)});
    identity.teacher = canary(Canary::teacher, i);
    const auto child = must(
        clinic.session.enrollChild(clinic.by,
                                   {.number = roster::withCheckDigit(std::to_string(2000 + i)),
                                    .birth = {2019, 3},
                                    .school = clinic.school,
                                    .grade = "2",
                                    .room = "6",
                                    .note = {}},
                                   identity, session::Confirmed::yes, session::Confirmed::yes));
    must(clinic.session.enterConsent(clinic.by, clinic.form(child)));
    if (i == 0) clinic.standardVisit(child);
    if (i == 1) clinic.seat(child);
  }
  auto word = canary(Canary::passphrase, 1);
  must(clinic.session.changePassphrase(clinic.by, test::Clinic::passphrase, std::move(word)));
  must(clinic.session.finish());
}

[[gnu::noinline]] void openNames(Window& desk) {
  auto& line = part<QLineEdit>(*desk.window, u"coverPassphrase"_s);
  QTest::keyClicks(&line, ui::toQt(canary(Canary::passphrase, 1)));
  QTest::keyClick(&line, Qt::Key_Return);
  REQUIRE_FALSE(desk.isCovered());
}

/// Every page that shows names, with a search and a card open.
[[gnu::noinline]] void goAround(Window& desk) {
  QTest::qWait(200); // the roll is read in leisure
  auto& window = *desk.window;
  for (const auto key : {Qt::Key_F3, Qt::Key_F4, Qt::Key_F5, Qt::Key_F7, Qt::Key_F9, Qt::Key_F10,
                         Qt::Key_F2, Qt::Key_F8}) {
    press(window, key);
    window.repaint();
    QTest::qWait(20);
  }
  press(window, Qt::Key_F8);
  auto& areas = part<QListWidget>(window, u"deskAreas"_s);
  areas.setCurrentRow(areas.count() - 1); // the students
  part<QLineEdit>(window, u"deskStudentsSearch"_s).setText(ui::toQt(canary(Canary::first, 4)));
  auto& table = part<QTableView>(window, u"deskStudentsTable"_s);
  REQUIRE(table.model()->rowCount() > 0);
  table.selectRow(0);
  window.repaint();
  press(window, Qt::Key_F1);
  window.repaint();
  QTest::keyClicks(window.focusWidget(), ui::toQt(canary(Canary::first, 2).substr(0, 9)));
  QApplication::clipboard()->setText(ui::toQt(canary(Canary::last, 2)));
  window.repaint();
  QTest::qWait(20);
}

[[gnu::noinline]] void lockNames(Window& desk) {
  press(*desk.window, Qt::Key_F12);
  QTest::qWait(50);
  REQUIRE(desk.isCovered());
}

/// Of a length that is read in another thread, and with more rows than are looked at in the
/// window's.
[[gnu::noinline]] void writeLongList(const base::Path& path) {
  std::string list = "first,last,birth_date,grade,room,bus\n";
  for (int i = 0; i < 1200; ++i)
    list += canary(Canary::first, 100 + i) + ',' + canary(Canary::last, 100 + i) + ",2018-0" +
            std::to_string(1 + i % 9) + '-' + std::to_string(10 + i % 18) + ",2,4," +
            std::string(250, 'x') + '\n';
  must(base::replaceFile(path, list));
}

/// The list is read and looked through aside, and shown.
[[gnu::noinline]] void lookAtList(Window& desk, const base::Path& path) {
  auto& window = *desk.window;
  press(window, Qt::Key_F8);
  auto* page = window.findChild<ui::DeskPage*>();
  REQUIRE(page != nullptr);
  page->turnTo(session::Area::rosters);
  press(window, Qt::Key_I, Qt::AltModifier);
  desk.prompter->files = {ui::toQt(path.string())};
  press(window, Qt::Key_S, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor([&] { return desk.shows(u"listPage"_s); }, 20000));
  REQUIRE(QTest::qWaitFor([&] { return !window.work().isBusy(); }, 60000));
  window.repaint();
  QTest::qWait(20);
}

} // namespace

TEST_CASE("After lock no name of a list that was read in another thread is in the window's memory",
          "[case-255]") {
  Window desk;
  makeWindowBook(desk.book());
  const auto list = desk.folder / "list.csv";
  writeLongList(list);
  desk.open();
  desk.window->openBook(ui::toQt(desk.book().string()));
  openNames(desk);
  lookAtList(desk, list);
  const auto open = traceCount();
  lockNames(desk);
  const auto left = traces();
  CHECK(open > 100);
  for (const auto& trace : left)
    UNSCOPED_INFO(trace);
  CHECK(left.empty());
}

TEST_CASE("After lock no name, guardian, phone or passphrase is in the memory of the window",
          "[case-255]") {
  Window desk;
  makeWindowBook(desk.book());
  desk.open();
  desk.window->openBook(ui::toQt(desk.book().string()));
  openNames(desk);
  goAround(desk);
  const auto open = traceCount();
  lockNames(desk);
  const auto left = traces();
  CHECK(open > windowChildren);
  for (const auto& trace : left)
    UNSCOPED_INFO(trace);
  CHECK(left.empty());
  std::cout << "the window: " << open << " names in memory while open, " << left.size()
            << " after lock\n";
  openNames(desk); // and work goes on
}
