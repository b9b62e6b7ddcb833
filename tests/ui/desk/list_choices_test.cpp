#include "ui/fixtures/list_fixture.h"

using namespace gk;
using namespace gk::test;

// What a person says of a whole list: where its headings are, whose rows, which grade and room.

TEST_CASE("One class's list without grade and room is imported with what is said of all",
          "[case-271]") {
  OnList desk;
  desk.open("First,Last,DOB\nPia,Oake,2019-05-02\nJo,Sedge,2019-06-03\n");
  CHECK(desk.label("listTrouble").contains(u"no column is the grade"_s));
  CHECK(part<QComboBox>(desk.page, u"listGrade"_s).isVisible());
  desk.pick("listGrade", 3); // after "Not said", K and 1
  CHECK(desk.label("listCounts").startsWith(u"2 new, 0 changed"_s));
  // The room is taken when the key to import comes while it is typed.
  part<QLineEdit>(desk.page, u"listRoom"_s).setText(u"6"_s);
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_S);
  CHECK_FALSE(desk.isListShown());
  const auto found = must(desk.clinic.session.findChildren("sedge"));
  REQUIRE(found.size() == 1);
  const auto card = must(desk.clinic.session.child(found.front().child)).value;
  CHECK(card.grade == "2");
  CHECK(card.room == "6");
  // The next list is another class's, and where a column says it nothing is asked.
  desk.open("First,Last,DOB\nIvo,Reed,2019-05-02\n");
  CHECK(part<QComboBox>(desk.page, u"listGrade"_s).currentIndex() == 0);
  CHECK(part<QLineEdit>(desk.page, u"listRoom"_s).text().isEmpty());
  press(desk.page, Qt::Key_Escape);
  desk.open("First,Last,DOB,Grade,Room\nIvo,Reed,2019-05-02,2,6\n");
  CHECK_FALSE(part<QComboBox>(desk.page, u"listGrade"_s).isVisible());
  CHECK_FALSE(part<QLineEdit>(desk.page, u"listRoom"_s).isVisible());
}

TEST_CASE("The row with the headings is chosen in the list", "[case-271]") {
  OnList desk;
  // The page's own line above looks more like headings than they do.
  desk.open("Student,Grade,Room\nKid,Gr,Born\n\"Oake, Pia\",2,2019-05-02\n");
  auto& heading = part<QComboBox>(desk.page, u"listHeading"_s);
  CHECK(heading.currentText() == u"Line 1: Student, Grade, Room"_s);
  CHECK(heading.count() == 4);
  desk.pick("listHeading", 2);
  QTest::qWait(1); // the choices of the columns are made again
  CHECK(heading.currentText() == u"Line 2: Kid, Gr, Born"_s);
  CHECK(desk.cell("listColumns", 1, 0) == u"Oake, Pia"_s);
  using roster::RosterColumn;
  desk.pick("listColumn0", static_cast<int>(RosterColumn::wholeName));
  desk.pick("listColumn2", static_cast<int>(RosterColumn::birthDate));
  CHECK(desk.label("listCounts").startsWith(u"1 new"_s));
  CHECK(desk.cell("listSkipped", 0, 1) == u"above the headings"_s);
  desk.pick("listHeading", 0);
  CHECK(desk.label("listTrouble").contains(u"no row with headings"_s, Qt::CaseInsensitive));
  // A row of the list may be a student's: it goes with the names.
  desk.clinic.session.lock();
  CHECK(heading.count() == 0);
}

TEST_CASE("Of a district's list the rows of the chosen school are taken, and nothing before that",
          "[case-271]") {
  OnList desk;
  const std::string both = "Campus,First,Last,DOB,Grade\nNorth,Pia,Oake,2019-05-02,2\n"
                           "South,Jo,Sedge,2019-06-03,2\n";
  desk.open(both);
  CHECK(desk.label("listTrouble").contains(u"rows of 2 schools"_s));
  CHECK_FALSE(part<QPushButton>(desk.page, u"listImport"_s).isEnabled());
  auto& of = part<QComboBox>(desk.page, u"listRowsOf"_s);
  CHECK(of.isVisible());
  CHECK(of.count() == 4); // not said, all and the two
  desk.pick("listRowsOf", 2);
  CHECK(of.currentText() == u"North"_s);
  CHECK(desk.label("listCounts").startsWith(u"1 new"_s));
  CHECK(desk.cell("listSkipped", 0, 1) == u"of another school"_s);
  desk.pick("listRowsOf", 1);
  CHECK(desk.label("listCounts").startsWith(u"2 new"_s));
  press(desk.page, Qt::Key_Escape);
  // Where the list calls the school as the logbook does, that is meant.
  desk.open("Campus,First,Last,DOB,Grade\nCOBBLE LANTERN ELEMENTARY,Pia,Oake,2019-05-02,2\n"
            "Heron Bend,Jo,Sedge,2019-06-03,2\n");
  CHECK(of.currentText() == u"COBBLE LANTERN ELEMENTARY"_s);
  CHECK(desk.label("listCounts").startsWith(u"1 new"_s));
  press(desk.page, Qt::Key_Escape);
  // Of one school nothing is asked.
  desk.open("Campus,First,Last,DOB,Grade\nCL,Pia,Oake,2019-05-02,2\n");
  CHECK_FALSE(of.isVisible());
  CHECK(desk.label("listCounts").startsWith(u"1 new"_s));
}
