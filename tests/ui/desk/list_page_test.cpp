#include "ui/fixtures/list_fixture.h"

#include "support/packed.h"
#include "ui/look/look.h"

#include <QCheckBox>

using namespace gk;
using namespace gk::test;

namespace {

/// A class list as a school's office program saves it: a title, headings, dates as serial numbers.
std::string classList() {
  const auto text = [](const char* at, const std::string& words) {
    return "<c r=\"" + std::string(at) + "\" t=\"inlineStr\"><is><t>" + words + "</t></is></c>";
  };
  const auto date = [](const char* at, int days) { // since 1899-12-30
    return "<c r=\"" + std::string(at) + "\" s=\"1\"><v>" + std::to_string(days) + "</v></c>";
  };
  const auto sheet = "<row r=\"1\">" + text("A1", "Class list 2026-27") + "</row><row r=\"2\">" +
                     text("A2", "First") + text("B2", "Last") + text("C2", "DOB") +
                     text("D2", "Grade") + text("E2", "Room") + "</row><row r=\"3\">" +
                     text("A3", "Pia") + text("B3", "Oake") + date("C3", 43587) + text("D3", "2") +
                     text("E3", "6") + "</row><row r=\"4\">" + text("A4", "Jo") +
                     text("B4", "Sedge") + date("C4", 43619) + text("D4", "2") + text("E4", "6") +
                     "</row>";
  return packed({{"xl/workbook.xml",
                  "<workbook><sheets><sheet name=\"Grade 2\" r:id=\"r1\"/></sheets></workbook>"},
                 {"xl/_rels/workbook.xml.rels",
                  "<Relationships><Relationship Id=\"r1\" Type=\"t/worksheet\" "
                  "Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"r2\" Type=\"t/styles\" "
                  "Target=\"styles.xml\"/></Relationships>"},
                 {"xl/styles.xml", "<styleSheet><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/>"
                                   "</cellXfs></styleSheet>"},
                 {"xl/worksheets/sheet1.xml",
                  "<worksheet><sheetData>" + sheet + "</sheetData></worksheet>"}});
}

} // namespace

TEST_CASE("A school's list as a workbook (.xlsx) is looked at and imported at the desk",
          "[case-435]") {
  OnList desk;
  desk.open(classList(), "class list.xlsx");
  CHECK(desk.troubles.join(u'|') == QString());
  REQUIRE(desk.isListShown());
  CHECK(desk.label("listCounts").startsWith(u"2 new, 0 changed"_s));
  CHECK(desk.cell("listColumns", 1, 0) == u"Pia"_s);
  CHECK(desk.cell("listColumns", 1, 2) == u"2019-05-02"_s);
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_S);
  CHECK_FALSE(desk.isListShown());
  const auto found = must(desk.clinic.session.findChildren("sedge"));
  REQUIRE(found.size() == 1);
  CHECK(must(desk.clinic.session.identity(found.front().child)).birth ==
        must(base::Date::parse("2019-06-03")));
  // What only looks like one is refused, and nothing is shown of it.
  desk.open(classList().substr(0, 200), "class list.xlsx");
  CHECK_FALSE(desk.isListShown());
  CHECK(desk.found("oake") == 1);
}

TEST_CASE("The first row of a list is seen below the choices of its columns", "[case-436]") {
  const int percent = GENERATE(100, 150);
  OnList desk;
  ui::dress({ui::Scheme::light, percent});
  desk.open("First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2,6\nJo,Sedge,2019-06-03,2,6\n");
  QTest::qWait(1);
  const auto& columns = desk.table("listColumns");
  for (int column = 0; column < columns.columnCount(); ++column) {
    INFO(percent << " %, column " << column);
    const auto* box = columns.cellWidget(0, column);
    REQUIRE(box != nullptr);
    const auto first = columns.visualItemRect(columns.item(1, column));
    CHECK(box->geometry().bottom() < first.top());
    CHECK(box->width() >= box->sizeHint().width());
    CHECK(first.bottom() <= columns.viewport()->height());
  }
  ui::dress();
}

TEST_CASE("A school's list is looked at, imported and taken back at the desk",
          "[case-200][case-273]") {
  OnList desk;
  desk.open("Cobble Lantern,,,\nfirst,last,birth_date,grade\nLupe,Saltmarsh,2019-05-02,2\n"
            "Teo,Hollowell,2012-05-02,2\n");
  REQUIRE(desk.isListShown());
  CHECK(desk.label("listTitle") == u"List of Cobble Lantern Elementary"_s);
  CHECK(desk.label("listCounts") ==
        u"1 new, 0 changed, 0 unchanged, 0 not on this list, 1 row waits"_s);
  CHECK(desk.cell("listHeld", 0, 1).contains(u"unusual for grade 2"_s));
  CHECK(desk.cell("listSkipped", 0, 1) == u"above the headings"_s);
  // Nothing is written before it is confirmed.
  desk.alt(Qt::Key_S);
  CHECK(desk.prompter.asked.back().startsWith(u"Cobble Lantern Elementary: 1 new"_s));
  CHECK(desk.found("lupe") == 0);
  part<QCheckBox>(desk.page, u"listAges"_s).setChecked(true);
  CHECK(desk.label("listCounts").startsWith(u"2 new"_s));
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_S);
  CHECK_FALSE(desk.isListShown());
  CHECK(desk.news.startsWith(u"Imported: 2 new"_s));
  REQUIRE(desk.found("lupe") == 1);
  part<QLineEdit>(desk.page, u"deskStudentsSearch"_s).setText(u"lupe"_s);
  auto& students = part<QTableView>(desk.page, u"deskStudentsTable"_s);
  students.setCurrentIndex(students.model()->index(0, 0));
  desk.alt(Qt::Key_K);
  part<QLineEdit>(desk.page, u"deskStudentsReason"_s).setText(u"wrong school's list"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.found("lupe") == 0);
  CHECK(desk.found("teo") == 0);
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("Columns and the order of dates are chosen in the list, and remembered",
          "[case-271][case-273]") {
  OnList desk;
  desk.open("Kid;Came;Gr\nOake, Pia;4/3/2019;2\nSedge, Jo;5/6/2019;2\n");
  CHECK(desk.label("listTrouble").contains(u"no column is the name"_s));
  CHECK_FALSE(part<QPushButton>(desk.page, u"listImport"_s).isEnabled());
  using roster::RosterColumn;
  desk.pick("listColumn0", static_cast<int>(RosterColumn::wholeName));
  desk.pick("listColumn1", static_cast<int>(RosterColumn::birthDate));
  desk.pick("listColumn2", static_cast<int>(RosterColumn::grade));
  CHECK(
      desk.label("listDates")
          .contains(
              u"4/3/2019 is Apr 3, 2019 or Mar 4, 2019; 5/6/2019 is May 6, 2019 or Jun 5, 2019"_s));
  desk.pick("listOrder", static_cast<int>(roster::DateOrder::monthFirst));
  CHECK(desk.label("listCounts").startsWith(u"2 new"_s));
}

TEST_CASE("A pair that is unsure is shown side by side for yes or no", "[case-272]") {
  OnList desk;
  const auto mina = desk.clinic.childWithoutForm("Mina", "Tolliver");
  desk.open("First,Last,DOB,Grade,Room\nMina,Marlowe,2019-03-14,2,6\n");
  CHECK(desk.label("listPairTitle").contains(u"the same student? 1 pair"_s));
  CHECK(desk.cell("listPair", 2, 0) == u"≠ Last name"_s);
  CHECK(desk.cell("listPair", 2, 1) == u"Marlowe"_s);
  CHECK(desk.cell("listPair", 2, 2) == u"Tolliver"_s);
  CHECK(desk.cell("listPair", 4, 0) == u"Birth date"_s);
  desk.tab(1);
  SECTION("the same") {
    desk.alt(Qt::Key_Y);
    CHECK(desk.label("listCounts").startsWith(u"0 new, 1 changed (room 1, name 1)"_s));
    desk.prompter.confirms = {true};
    desk.alt(Qt::Key_S);
    CHECK(must(desk.clinic.session.identity(mina)).last == "Marlowe");
  }
  SECTION("another") {
    desk.alt(Qt::Key_D);
    CHECK(desk.label("listCounts").startsWith(u"1 new, 0 changed"_s));
    CHECK(desk.label("listPairTitle").contains(u"No pair"_s));
  }
}

TEST_CASE("What the list changes of whom is read before the import, names on top", "[case-522]") {
  OnList desk;
  const auto mina = desk.clinic.childWithoutForm("Mina", "Tolliver");
  desk.clinic.childWithoutForm("Jo", "Sedge");
  auto who = must(desk.clinic.session.identity(mina));
  who.studentId = "70101";
  must(desk.clinic.session.correctStudent(desk.clinic.by, mina, {who, {}}, "said by the school"));
  desk.open("Student ID,First,Last,DOB,Grade,Room\n,Jo,Sedge,2019-03-14,2,12\n"
            "70101,Mina,Marlowe,2019-03-14,2,12\n");
  const auto& tabs = part<QTabWidget>(desk.page, u"listTabs"_s);
  CHECK(tabs.tabText(5) == u"Changed (2)"_s);
  CHECK(desk.cell("listChanged", 0, 0) ==
        ui::toQt(must(desk.clinic.session.child(mina)).value.number));
  CHECK(desk.cell("listChanged", 0, 1) == u"≠ Mina Tolliver"_s);
  CHECK(desk.cell("listChanged", 0, 2).startsWith(u"Mina Tolliver; "_s));
  CHECK(desk.cell("listChanged", 0, 3).startsWith(u"Mina Marlowe; "_s));
  CHECK(desk.cell("listChanged", 1, 1) == u"Jo Sedge"_s);
  CHECK(desk.cell("listChanged", 1, 3).contains(u"room 12"_s));
  desk.clinic.session.lock();
  CHECK(desk.table("listChanged").rowCount() == 0);
}

TEST_CASE("Columns that are left out are named above the list, with a warning for an allergy",
          "[case-505]") {
  OnList desk;
  desk.open("First,Last,DOB,Grade,Bus,Remarks\nPia,Oake,2019-05-02,2,12,latex!\n");
  CHECK(desk.label("listNotes").contains(u"Remarks is left out, but 1 cell has an allergy"_s));
  CHECK(desk.label("listNotes").contains(u"Left out: Bus, Remarks."_s));
  desk.pick("listColumn5", static_cast<int>(roster::RosterColumn::allergies));
  CHECK(desk.label("listNotes") == u"Left out: Bus."_s);
}

TEST_CASE("Students past the grades of a list stand apart, to be recorded as left or not",
          "[case-509]") {
  OnList desk;
  const auto jo = desk.clinic.childWithoutForm("Jo", "Sedge");
  desk.open("First,Last,DOB,Grade,Room\nPia,Oake,2018-05-02,3,6\n");
  CHECK(desk.label("listCounts").contains(u"0 not on this list, 1 outside its grades"_s));
  CHECK(desk.table("listMissing").rowCount() == 0);
  CHECK(desk.cell("listOutside", 0, 1) == u"Sedge, Jo"_s);
  desk.tab(4);
  desk.table("listOutside").selectAll();
  desk.prompter.choices = {static_cast<int>(roster::LeftBecause::graduated)};
  desk.prompter.texts = {u"6/12/2026"_s};
  desk.alt(Qt::Key_L);
  CHECK(must(desk.clinic.session.child(jo)).value.left.has_value());
  CHECK(desk.table("listOutside").rowCount() == 0);
}

TEST_CASE("A row that waits is put right in the list and taken then", "[case-271]") {
  OnList desk;
  desk.open("First,Last,DOB,Grade\nPia,Oake,2019-05-02,2\nJo,Sedge,2019-06-31,2\n");
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_S);
  REQUIRE(desk.isListShown());
  CHECK(desk.news.contains(u"1 row waits here"_s));
  CHECK(desk.found("pia") == 1);
  const auto saved = *desk.clinic.folder / "waiting.csv";
  desk.prompter.files = {ui::toQt(saved.string())};
  desk.alt(Qt::Key_P);
  CHECK(desk.prompter.asked.back().endsWith(ui::plainFileWords));
  CHECK(must(base::readFile(saved)).find("not a day that exists") != std::string::npos);
  desk.table("listHeld").item(0, 4)->setText(u"2019-06-30"_s);
  CHECK(desk.label("listCounts").startsWith(u"1 new, 0 changed, 1 unchanged"_s));
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_S);
  CHECK(desk.found("sedge") == 1);
  CHECK_FALSE(desk.isListShown());
}

TEST_CASE("Who is not on a school's list is named, and saved for the school to answer",
          "[case-447]") {
  OnList desk;
  desk.clinic.childWithoutForm("Mina", "Tolliver");
  const auto jo = desk.clinic.childWithoutForm("Jo", "Sedge");
  desk.open("First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2,6\nMina,Tolliver,2019-03-14,2,6\n");
  CHECK(desk.label("listCounts").contains(u"1 not on this list"_s));
  const auto& tabs = part<QTabWidget>(desk.page, u"listTabs"_s);
  CHECK(tabs.tabText(4) == u"Not on this list (1)"_s);
  const auto number = ui::toQt(must(desk.clinic.session.child(jo)).value.number);
  CHECK(desk.cell("listMissing", 0, 0) == number);
  CHECK(desk.cell("listMissing", 0, 1) == u"Sedge, Jo"_s);
  CHECK(desk.cell("listMissing", 0, 2) == u"2"_s);
  desk.tab(4);
  const auto saved = *desk.clinic.folder / "missing.csv";
  desk.prompter.files = {ui::toQt(saved.string())};
  desk.alt(Qt::Key_P);
  CHECK(desk.prompter.asked.back().endsWith(ui::plainFileWords));
  const auto file = must(base::readFile(saved));
  CHECK(file.find(number.toStdString() + ",Jo,Sedge,2,") != std::string::npos);
  CHECK(file.find("Mina") == std::string::npos);
  // With a row that is Jo no one is left out, and there is nothing to save.
  press(desk.page, Qt::Key_Escape);
  desk.open("First,Last,DOB,Grade,Room\nJo,Sedge,2019-03-14,2,6\nMina,Tolliver,2019-03-14,2,6\n");
  CHECK(tabs.tabText(4) == u"Not on this list (0)"_s);
  CHECK_FALSE(part<QPushButton>(desk.page, u"listMissingSave"_s).isEnabled());
  desk.clinic.session.lock();
  CHECK(desk.table("listMissing").rowCount() == 0);
}

TEST_CASE("Those who left are selected under Not on this list and recorded in one act",
          "[case-475]") {
  OnList desk;
  const auto jo = desk.clinic.childWithoutForm("Jo", "Sedge");
  const auto ivo = desk.clinic.childWithoutForm("Ivo", "Reed");
  const auto left = [&](roster::ChildId who) {
    return must(desk.clinic.session.child(who)).value.left;
  };
  desk.open("First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2,6\n");
  desk.tab(4);
  CHECK(desk.table("listMissing").rowCount() == 2);
  desk.alt(Qt::Key_L);
  CHECK(desk.news.contains(u"Select who left first"_s));
  desk.table("listMissing").selectAll();
  desk.prompter.choices = {static_cast<int>(roster::LeftBecause::graduated)};
  desk.prompter.texts = {u"6/12/2026"_s};
  desk.alt(Qt::Key_L);
  const roster::Leaving june{must(base::Date::parse("2026-06-12")), roster::LeftBecause::graduated};
  CHECK(left(jo) == june);
  CHECK(left(ivo) == june);
  CHECK(desk.news.contains(u"2 students recorded as left"_s));
  CHECK(desk.table("listMissing").rowCount() == 0);
  CHECK(part<QTabWidget>(desk.page, u"listTabs"_s).tabText(4) == u"Not on this list (0)"_s);
  CHECK_FALSE(part<QPushButton>(desk.page, u"listMissingLeft"_s).isEnabled());
}

TEST_CASE("Whoever is recorded as left for another reason is said why, in words", "[case-485]") {
  OnList desk;
  const auto jo = desk.clinic.childWithoutForm("Jo", "Sedge");
  desk.open("First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2,6\n");
  desk.tab(4);
  desk.table("listMissing").selectAll();
  const auto record = [&](const QString& words) {
    desk.prompter.choices = {static_cast<int>(roster::LeftBecause::other)};
    desk.prompter.texts = {words, u"11/16/2026"_s};
    desk.alt(Qt::Key_L);
    return must(desk.clinic.session.child(jo));
  };
  CHECK_FALSE(record(u" "_s).value.left);
  CHECK(record(u"taught at home"_s).stamp.reason == "other: taught at home");
}

TEST_CASE("A list that is being looked at is let go when the logbook is locked", "[case-271]") {
  OnList desk;
  desk.open("First,Last,DOB,Grade\nPia,Oake,2019-05-02,2\n");
  REQUIRE(desk.isListShown());
  desk.clinic.session.lock();
  CHECK_FALSE(part<ui::ListPage>(desk.page, u"listPage"_s).isOpen());
  CHECK(desk.table("listColumns").rowCount() == 0);
}

TEST_CASE("A list of very many rows that wait shows the first thousand, and says so",
          "[case-275]") {
  OnList desk;
  std::string list = "first,last,birth_date,grade,room\n";
  for (int i = 0; i < 1500; ++i)
    list += "Ann,Bell,in spring of " + std::to_string(i) + ",2,4\n"; // no row is another's copy
  desk.open(list);
  CHECK(desk.troubles.join(u'|') == QString());
  REQUIRE(desk.isListShown());
  CHECK(desk.label("listCounts").contains(u"the first 1000 are shown"_s));
  CHECK(desk.table("listHeld").rowCount() == 1000);
}
