#include "ui/planning/calendar_page.h"

#include "base/files/files.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/look/look.h"

#include <QComboBox>
#include <QTableView>

using namespace gk;
using namespace gk::test;

namespace {

struct Calendar : Desk {
  ui::CalendarPage page{context, nullptr};

  Calendar() {
    ui::dress();
    listen(page);
    showActive(page);
    page.refresh();
  }
  void plan(const QString& date, const QString& chairs, const QString& note = {}) {
    press(page, Qt::Key_N, Qt::AltModifier);
    part<QLineEdit>(page, u"planDate"_s).setText(date);
    part<QLineEdit>(page, u"planChairs"_s).setText(chairs);
    part<QLineEdit>(page, u"planNote"_s).setText(note);
    press(page, Qt::Key_S, Qt::AltModifier);
  }
  std::vector<base::Recorded<roster::PlannedDay>> plans() {
    return must(clinic.session.plannedDays(clinic.term));
  }
  QString cell(int row, int column) {
    const auto* model = part<QTableView>(page, u"planTable"_s).model();
    return model->index(row, column).data().toString();
  }
};

} // namespace

TEST_CASE("Days are planned, shown with who may be seen, changed and canceled", "[case-298]") {
  Calendar desk;
  desk.clinic.child("Mina");
  desk.clinic.childWithoutForm("Lupe");
  desk.plan(u"11/24/2026"_s, u"2"_s, u"Park behind the gym"_s);
  CHECK(desk.troubles.isEmpty());
  REQUIRE(desk.plans().size() == 1);
  CHECK(desk.plans().front().value.chairs == 2);
  CHECK(desk.cell(0, 5) == u"1"_s); // a yes
  CHECK(desk.cell(0, 8) == u"Park behind the gym"_s);
  // A weekend is asked about.
  desk.plan(u"11/28/2026"_s, u"1"_s);
  CHECK(desk.prompter.asked.size() == 1);
  CHECK(desk.plans().size() == 1);
  desk.prompter.confirms = {true};
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.plans().size() == 2);
  CHECK(desk.cell(1, 8).contains(u"Saturday"_s));
  auto& table = part<QTableView>(desk.page, u"planTable"_s);
  table.setCurrentIndex(table.model()->index(1, 0));
  desk.prompter.texts = {u"no one is there"_s};
  press(desk.page, Qt::Key_X, Qt::AltModifier);
  CHECK(desk.cell(1, 8).contains(u"CANCELED"_s));
  table.setCurrentIndex(table.model()->index(0, 0));
  press(desk.page, Qt::Key_K, Qt::AltModifier);
  part<QLineEdit>(desk.page, u"planDate"_s).setText(u"11/25/2026"_s);
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  CHECK_FALSE(desk.troubles.isEmpty()); // no reason
  part<QLineEdit>(desk.page, u"planReason"_s).setText(u"the school asked"_s);
  press(desk.page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.plans().front().value.date == must(base::Date::parse("2026-11-25")));
}

TEST_CASE("The note of a planned day is read whole below the list, in large letters too",
          "[case-480]") {
  Calendar desk;
  const auto note =
      u"Park behind the gym, ring twice, the custodian has the key of room 14 and the "
      "second cart stays in the hall until noon"_s;
  desk.plan(u"11/24/2026"_s, u"2"_s, note);
  ui::dress({ui::Scheme::light, 150});
  desk.page.resize(1366, 640);
  QCoreApplication::processEvents();
  const auto& label = part<QLabel>(desk.page, u"planWords"_s);
  CHECK(label.text().contains(u"Note: "_s + note));
  CHECK(label.isVisible());
  CHECK(label.heightForWidth(label.width()) <= label.height());
  CHECK(label.visibleRegion().boundingRect() == label.rect());
  ui::dress();
}

TEST_CASE("The students of a school are shared over its planned days, without those seen already",
          "[case-452]") {
  Calendar desk;
  for (const auto* name : {"Mina", "Lupe", "Wren", "Jo", "Pia"})
    desk.clinic.child(name);
  desk.clinic.standardVisit(desk.clinic.child("Teo"));
  const auto expected = [&] {
    QStringList days;
    const auto* model = part<QTableView>(desk.page, u"planTable"_s).model();
    for (int row = 0; row < model->rowCount(); ++row)
      days += desk.cell(row, 5);
    return days.join(u' ');
  };
  desk.plan(u"11/24/2026"_s, u"2"_s);
  CHECK(expected() == u"5"_s);
  desk.plan(u"11/30/2026"_s, u"2"_s);
  CHECK(expected() == u"2 3"_s);
  CHECK(words(desk.page, u"planWords"_s).contains(u"2 varnish doses"_s));
  // A canceled day takes none, and one that is over neither.
  desk.prompter.texts = {u"fire drill"_s};
  press(desk.page, Qt::Key_X, Qt::AltModifier);
  CHECK(expected() == u"\u2013 5"_s);
  CHECK(words(desk.page, u"planWords"_s).endsWith(u"Canceled."_s));
  desk.clinic.clock.advance(std::chrono::hours(24 * 14));
  desk.page.refresh();
  CHECK(expected() == u"\u2013 \u2013"_s);
  CHECK(desk.troubles.join(u'|') == QString());
}

TEST_CASE("A school without any forms back says that nothing is known yet", "[case-452]") {
  Calendar desk;
  desk.clinic.childWithoutForm("Mina");
  desk.plan(u"11/24/2026"_s, u"2"_s);
  CHECK(desk.cell(0, 5) == u"0"_s);
  CHECK(desk.cell(0, 8).contains(u"No forms are back"_s));
  CHECK(words(desk.page, u"planWords"_s).startsWith(u"No forms are back"_s));
}

TEST_CASE("Planned days are printed and exported, and name no student", "[case-299]") {
  Calendar desk;
  desk.clinic.child("Mina", "Tolliver-Reed");
  desk.plan(u"11/24/2026"_s, u"2"_s);
  desk.prompter.prints = {true};
  press(desk.page, Qt::Key_P, Qt::AltModifier);
  CHECK(desk.prompter.printed.startsWith("%PDF"));
  const auto file = (*desk.clinic.folder / "term").string();
  desk.prompter.files = {ui::toQt(file)};
  press(desk.page, Qt::Key_E, Qt::AltModifier);
  const auto text = must(base::readFile(file + ".ics"));
  CHECK(text.find("DTSTART;VALUE=DATE:20261124") != std::string::npos);
  CHECK(text.find("UID:" + desk.plans().front().id.uuid().text()) != std::string::npos);
  // Read as it is unfolded.
  auto whole = text;
  for (auto at = whole.find("\r\n "); at != std::string::npos; at = whole.find("\r\n "))
    whole.erase(at, 3);
  CHECK(whole.find("\\n1 student expected. To pack: ") != std::string::npos);
  CHECK(whole.find("1 varnish dose\\, 2 pairs of gloves\\, 1 mirror") != std::string::npos);
  CHECK(text.find("Mina") == std::string::npos);
}

TEST_CASE("Pictures of the calendar", "[.pictures]") {
  for (const int percent : {100, 150}) {
    Calendar desk;
    ui::dress({.percent = percent});
    desk.page.resize(1260, 640);
    for (int i = 0; i < 6; ++i)
      desk.clinic.child("Child" + std::to_string(i));
    desk.prompter.confirms = {true};
    desk.plan(u"11/24/2026"_s, u"2"_s, u"Park behind the gym"_s);
    desk.plan(u"11/28/2026"_s, u"1"_s);
    desk.plan(u"12/1/2026"_s, u"3"_s);
    QTest::qWait(50);
    savePicture(desk.page, u"calendar-%1"_s.arg(percent));
  }
  ui::dress();
}
