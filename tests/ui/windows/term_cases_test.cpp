#include "ui/board/day_board_page.h"
#include "ui/chair/chair_page.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/models/table_model.h"
#include "ui/totals/totals_page.h"

#include <QLineEdit>
#include <QListWidget>
#include <QSpinBox>
#include <QTableView>

// Hard cases of days, schools and years, as the whole window tells them.
using namespace gk;
using namespace gk::test;

namespace {

/// A logbook written by a clinic, then opened in the window at the moment where that ended.
struct Told : Window {
  template <class Story>
  void tell(Story story) {
    Clinic clinic(book(), session::BookKind::throwaway);
    author = clinic.hygienist;
    story(clinic);
    clock.setWall(clinic.clock.now());
    must(clinic.session.finish());
  }
  void begin() {
    openAndUnlock();
    ui::Setup setup;
    setup.author = author;
    window->book()->acting().change(setup);
  }
  void key(Qt::Key which, Qt::KeyboardModifiers with = Qt::NoModifier) const {
    press(*window, which, with);
  }
  ui::TotalsPage& totals() {
    key(Qt::Key_F4);
    auto& page = part<ui::TotalsPage>(*window, u"totalsPage"_s);
    REQUIRE(QTest::qWaitFor([&] { return !page.isCounting(); }, 20000));
    return page;
  }
  /// Of the table that begins so: the row of that name, under that heading.
  QString cell(const char* title, const std::string& row, const std::string& heading) {
    auto& browser = *totals().findChild<ui::ReportBrowser*>();
    for (const auto& table : browser.tables()) {
      if (!table.title.starts_with(title)) continue;
      for (std::size_t column = 0; column < table.columns.size(); ++column) {
        if (table.columns[column].heading != heading) continue;
        for (const auto& cells : table.rows)
          if (cells.front().text() == row) return ui::toQt(cells.at(column).text());
      }
    }
    FAIL(std::string(title) + ", " + row + ", " + heading);
    return {};
  }

  std::optional<base::MemberId> author;
};

base::Date dateOf(const char* iso) {
  return must(base::Date::parse(iso));
}

void goTo(Clinic& clinic, const char* iso) {
  clinic.clock.setWall(base::atLocal(dateOf(iso), std::chrono::hours(9), std::chrono::hours(-5)));
  clinic.session.confirmClock();
}

roster::DayId openDayAt(Clinic& clinic, roster::SchoolId school) {
  return must(clinic.session.openDay(
      clinic.by,
      {.term = clinic.term, .school = school, .date = clinic.clock.now().date(), .reason = {}}));
}

} // namespace

TEST_CASE("A child born on February 29 has the age of the calendar at the chair", "[case-20]") {
  Told desk;
  desk.tell([](Clinic& clinic) {
    const session::Identity identity{
        .first = "Wren", .last = "Castlebury", .birth = dateOf("2020-02-29")};
    const auto child = must(clinic.session.enrollChild(clinic.by,
                                                       {.number = roster::withCheckDigit("2001"),
                                                        .birth = {2020, 2},
                                                        .school = clinic.school,
                                                        .grade = "1",
                                                        .room = "6",
                                                        .note = {}},
                                                       identity));
    goTo(clinic, "2026-11-18");
    auto form = clinic.form(child);
    must(clinic.session.enterConsent(clinic.by, form));
  });
  const auto facts = [&] {
    desk.begin();
    auto& board = part<ui::DayBoardPage>(*desk.window, u"dayBoardPage"_s);
    const auto line = must(desk.window->book()->session().findChildren("wren")).front();
    Q_EMIT board.childChosen(line.child, board.day()->id);
    REQUIRE(QTest::qWaitFor([&] { return desk.shows(u"chairPage"_s); }, 5000));
    return words(*desk.window, u"identityFacts"_s);
  };
  CHECK(facts().contains(u"February 29, 2020, age 6"_s));
}

TEST_CASE("A child who moved counts where the sealants were placed; the check is the other "
          "school's work",
          "[case-57]") {
  Told desk;
  desk.tell([](Clinic& clinic) {
    const auto mina = clinic.child("Mina");
    clinic.standardVisit(mina);
    const auto heron = must(clinic.session.enterSchool(clinic.by, {"Heron Bend Elementary", "HB"}));
    must(clinic.session.signDay({clinic.hygienist, {}},
                                {clinic.day, clinic.hygienist, clinic.coordinator}));
    goTo(clinic, "2027-11-16");
    auto licensed = must(clinic.session.members()).front().value;
    licensed.licenseUntil = dateOf("2029-06-30");
    must(clinic.session.correctMember(clinic.by, clinic.hygienist, licensed, "renewed"));
    clinic.term = must(clinic.session.enterTerm(
        clinic.by, {"Fall 2027", dateOf("2027-09-07"), dateOf("2027-12-17"), {}}));
    must(clinic.session.moveChild(clinic.by, mina, heron, "3", "12", "the family moved"));
    must(clinic.session.enterConsent(clinic.by, clinic.form(mina)));
    clinic.day = openDayAt(clinic, heron);
    clinic.seat(mina);
    for (const auto& one : must(clinic.session.earlierPlacements(mina, clinic.day))) {
      followup::RetentionCheck check{.placement = one.placement.id,
                                     .child = mina,
                                     .day = clinic.day,
                                     .kind = followup::CheckKind::longTerm,
                                     .note = {}};
      const auto whole = [&](dentition::Surface surface) {
        return one.placement.value.surfaces.has(surface) ? followup::Held::whole
                                                         : followup::Held::notSealed;
      };
      check.occlusal = whole(dentition::Surface::occlusal);
      check.buccal = whole(dentition::Surface::buccalPit);
      check.lingual = whole(dentition::Surface::lingualGroove);
      must(clinic.session.enterCheck(clinic.by, check));
    }
  });
  desk.begin();
  CHECK(desk.cell("Retention at", "Cobble Lantern Elementary", "Assessable") == u"4"_s);
  CHECK(desk.cell("Checked sealants", "Cobble Lantern Elementary", "Checked here") == u"0"_s);
  CHECK(desk.cell("Checked sealants", "Heron Bend Elementary", "Checked here") == u"4"_s);
}

TEST_CASE("Findings of another laptop are not received, never none, until a stick brings them",
          "[case-66]") {
  Told desk;
  const auto stick = desk.folder / "stick.gkbook";
  desk.tell([&](Clinic& clinic) {
    const auto mina = clinic.child("Mina");
    must(clinic.session.backUp(stick));
    base::SeededRandom hand(77);
    auto screener = must(
        session::Session::open(stick, base::LaptopId(base::makeUuid7(clinic.clock.now().at, hand)),
                               {clinic.clock, hand}, {}, session::BookKind::throwaway));
    must(screener.seat(
        clinic.by,
        {mina, clinic.day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
    must(screener.screen(clinic.by, clinic.fourSound(mina)));
    must(screener.finish());
  });
  desk.begin();
  const auto facts = [&] {
    auto& board = part<ui::DayBoardPage>(*desk.window, u"dayBoardPage"_s);
    const auto line = must(desk.window->book()->session().findChildren("mina")).front();
    Q_EMIT board.childChosen(line.child, board.day()->id);
    REQUIRE(QTest::qWaitFor([&] { return desk.shows(u"chairPage"_s); }, 5000));
    return words(*desk.window, u"identityFacts"_s);
  };
  CHECK(facts().contains(u"Findings today: not received"_s));
  desk.key(Qt::Key_F3);
  desk.prompter->files = {ui::toQt(stick.string())};
  desk.key(Qt::Key_T, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor([&] { return !desk.window->work().isBusy(); }, 20000));
  desk.key(Qt::Key_F1);
  CHECK(facts().contains(u"Findings today: received, 4 teeth to treat"_s));
}

TEST_CASE("A child kept back is told of by the grade of each year, in the history and on the board",
          "[case-74]") {
  Told desk;
  desk.tell([](Clinic& clinic) {
    const auto nell = clinic.child("Nell", "Farrowgate");
    clinic.standardVisit(nell);
    goTo(clinic, "2027-11-16");
    must(clinic.session.moveChild(clinic.by, nell, clinic.school, "3", "12", "as on the list"));
    must(clinic.session.moveChild(clinic.by, nell, clinic.school, "2", "8", "kept back"));
  });
  desk.begin();
  desk.key(Qt::Key_F8);
  auto& areas = part<QListWidget>(*desk.window, u"deskAreas"_s);
  for (int row = 0; row < areas.count(); ++row)
    if (areas.item(row)->text().contains(u"Students"_s)) areas.setCurrentRow(row);
  part<QLineEdit>(*desk.window, u"deskStudentsSearch"_s).setText(u"nell"_s);
  auto& table = part<QTableView>(*desk.window, u"deskStudentsTable"_s);
  table.setCurrentIndex(table.model()->index(0, 0));
  CHECK(table.model()->index(0, 3).data().toString() == u"2"_s);
  const auto history = words(*desk.window, u"deskStudentsHistory"_s);
  CHECK(history.contains(u"Grade: 2 → 3"_s));
  CHECK(history.contains(u"Grade: 3 → 2"_s));
  CHECK(history.contains(u"kept back"_s));
}

TEST_CASE("A child seen on two days of a term counts once, with two visits", "[case-75]") {
  Told desk;
  desk.tell([](Clinic& clinic) {
    const auto mina = clinic.child("Mina");
    clinic.standardVisit(mina);
    must(clinic.session.signDay({clinic.hygienist, {}},
                                {clinic.day, clinic.hygienist, clinic.coordinator}));
    goTo(clinic, "2026-11-18");
    clinic.day = openDayAt(clinic, clinic.school);
    clinic.seat(mina);
    clinic.screenFour(mina);
  });
  desk.begin();
  CHECK(desk.cell("Participation", "Total", "Screened") == u"1"_s);
  CHECK(desk.cell("Participation", "Total", "Days") == u"2"_s);
  CHECK(desk.cell("Participation", "Total", "Visits") == u"2"_s);
}

TEST_CASE("A second team opens its own day at a school of the same date", "[case-76]") {
  Told desk;
  desk.tell([](Clinic& clinic) { clinic.standardVisit(clinic.child("Mina")); });
  desk.begin();
  const auto open = [&](int team) {
    desk.key(Qt::Key_F1);
    desk.key(Qt::Key_O, Qt::AltModifier);
    part<QSpinBox>(*desk.window, u"dayTeam"_s).setValue(team);
    desk.key(Qt::Key_Return, Qt::ControlModifier);
  };
  auto& book = desk.window->book()->session();
  const auto term = must(book.terms()).front().id;
  open(1); // there is one already
  CHECK(must(book.days(term)).size() == 1);
  desk.key(Qt::Key_Escape);
  open(2);
  CHECK(must(book.days(term)).size() == 2);
  CHECK(desk.cell("Participation", "Total", "Days") == u"2"_s);
}

TEST_CASE("A school whose enrollment no one knows has counts and no rate", "[case-77]") {
  Told desk;
  desk.tell([](Clinic& clinic) { clinic.standardVisit(clinic.child("Mina")); });
  desk.begin();
  CHECK(desk.cell("Participation", "Total", "Consented") == u"1"_s);
  CHECK(desk.cell("Participation", "Total", "Enrolled") == u"unknown"_s);
  CHECK(desk.cell("Participation", "Total", "% of enrolled") == u"–"_s);
  const auto& page = desk.totals();
  CHECK(std::ranges::any_of(page.findChild<ui::ReportBrowser*>()->tables().front().notes,
                            [](const auto& note) {
                              return note.find("counts and no consent rate") != std::string::npos;
                            }));
}
