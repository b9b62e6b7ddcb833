#include "roster/list/roster_list.h"

#include "forms.h"
#include "list_reading.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using gk::roster::test::day;
using gk::roster::test::rowsOf;

// What a list says that is not read as it is written, and what is said of that.
namespace {

const auto notedOn = day(2026, 9, 15);

struct Read {
  explicit Read(const std::string& csv)
      : rows(rowsOf(csv)), layout(suggestLayout(rows)), reading(readRoster(rows, layout, notedOn)) {
    REQUIRE(layoutProblems(layout).empty());
  }
  [[nodiscard]] std::vector<std::string> leftOut() const {
    return leftOutNotes(leftOutColumns(rows, layout), rows.at(layout.heading.value()).cells);
  }

  std::vector<base::CsvRow> rows;
  RosterLayout layout;
  RosterReading reading;
};

} // namespace

TEST_CASE("A student ID that is none, or stands at two students, is read as blank and said",
          "[case-502]") {
  const Read list("Student ID,First,Last,DOB,Grade\n"
                  "#N/A,Pia,Oake,2019-05-02,2\n1.00235E+09,Jo,Sedge,2019-06-03,2\n"
                  "0070101,Ned,Fern,2019-07-04,2\n70101.0,Suri,Moss,2019-08-05,2\n"
                  "=\"00702\",Ivo,Reed,2019-09-06,2\n");
  REQUIRE(list.reading.lines.size() == 5);
  for (std::size_t i = 0; i < 4; ++i)
    CHECK(list.reading.lines[i].studentId.empty());
  CHECK(list.reading.lines[4].studentId == "00702");
  CHECK(list.reading.notes ==
        std::vector<std::string>{
            "2 student IDs read as blank: no ID, such as #N/A, 0 or 1.00235E+09.",
            "2 student IDs read as blank: the same ID is at another student of the list."});
  // One student in two rooms says the ID twice and means one.
  const Read rooms("Student ID,First,Last,DOB,Grade,Room\n"
                   "702,Pia,Oake,2019-05-02,2,4\n702,Pia,Oake,2019-05-02,2,5\n");
  CHECK(rooms.reading.lines.at(0).studentId == "702");
  CHECK(rooms.reading.notes.empty());
}

TEST_CASE("Columns that are left out are named, and an allergy in one of them is told",
          "[case-505]") {
  const Read list(
      "First,Last,DOB,Grade,Bus,Remarks on food,Favorite color\n"
      "Pia,Oake,2019-05-02,2,12,Acrylic!,red\nJo,Sedge,2019-06-03,2,,no latex allergy,\n");
  CHECK(list.leftOut() ==
        std::vector<std::string>{
            "\u25B2 Remarks on food is left out, but 1 cell has an allergy word, such as latex or "
            "acrylic. Say what this column is.",
            "Left out: Bus, Remarks on food, Favorite color."});
  const Read none("First,Last,DOB,Grade\nPia,Oake,2019-05-02,2\n");
  CHECK(none.leftOut().empty());
}

TEST_CASE("Every column of allergies and health is read", "[case-505]") {
  const Read list("First,Last,DOB,Grade,Allergy 1,Allergy 2,Student Health Concerns\n"
                  "Pia,Oake,2019-05-02,2,latex,Acrylic,latex gloves\n");
  const auto& alerts = list.reading.lines.at(0).alerts;
  REQUIRE(alerts.size() == 2);
  CHECK(alerts[0] == RosterAlert{FlagKind::latexAllergy, FlagAction::stop, "latex; latex gloves"});
  CHECK(alerts[1] == RosterAlert{FlagKind::acrylateAllergy, FlagAction::stop, "Acrylic"});
}

TEST_CASE("A column that only counts the rows is not the program's number", "[case-508]") {
  const Read bare("#,First,Last,DOB,Grade\n1,Pia,Oake,2019-05-02,2\n2,Jo,Sedge,2019-06-03,2\n");
  CHECK(bare.reading.lines.at(0).number.empty());
  CHECK(bare.leftOut() == std::vector<std::string>{"Left out: #."});
  const Read counted("Number,First,Last,DOB,Grade\n1,Pia,Oake,2019-05-02,2\n"
                     "2,Jo,Sedge,2019-06-03,2\n1,Ned,Fern,2019-07-04,3\n");
  CHECK(counted.reading.lines.at(1).number.empty());
  CHECK(rememberedLayout(counted.rows, counted.layout).empty());
  const Read numbers("Number,First,Last,DOB,Grade\n1043,Pia,Oake,2019-05-02,2\n");
  CHECK(numbers.reading.lines.at(0).number == withCheckDigit("1043"));
}

TEST_CASE("Totals and legends with a count under the grade are no students", "[case-510]") {
  const Read list("Student,DOB,Room,Grade\n\"Oake, Pia\",2019-05-02,4,2\n"
                  "Room 4 Total,,,1\nGrand Total:,,,2\n11/17/2026,,,2\n* = new student,,,2\n"
                  "\"Totals, Ned\",2019-07-04,4,2\nJo Sedge,,,2\n");
  CHECK(list.reading.lines.size() == 2);
  CHECK(list.reading.skipped.size() == 4);
  CHECK(list.reading.held.size() == 1); // a name without a birth date may be a student
}

TEST_CASE("A date that a spreadsheet showed as ######## says why it cannot be read", "[case-271]") {
  const Read list("First,Last,DOB,Grade\nPia,Oake,########,2\n");
  REQUIRE(list.reading.held.size() == 1);
  CHECK(list.reading.held[0].problems.at(0).what.find("the column was too narrow when saved") !=
        std::string::npos);
}

TEST_CASE("Whoever the school says is gone waits, and is not entered as new", "[case-511]") {
  const Read list("First,Last,DOB,Grade,Status\nPia,Oake,2019-05-02,2,Active\n"
                  "Jo,Sedge,2019-06-03,2,Withdrawn 10/2\nNed,Fern,2019-07-04,2,Transferred in\n");
  CHECK(list.reading.lines.size() == 2);
  REQUIRE(list.reading.held.size() == 1);
  CHECK(list.reading.held[0].problems.at(0).where == "enrollment status");
}

TEST_CASE("Race and insurance that are not understood keep no one waiting", "[case-520]") {
  const Read list("First,Last,DOB,Grade,Sex,Consent,Race,Insurance\n"
                  "Pia,Oake,2019-05-02,2,F - Female,N,Two or more,Blue plan\n"
                  "Jo,Sedge,2019-06-03,2,Male (M),,Asian,Medicaid\n");
  REQUIRE(list.reading.lines.size() == 2);
  const auto& pia = list.reading.lines[0];
  CHECK(pia.sex == dentition::Sex::female);
  CHECK(pia.consent.state == ConsentState::no);
  CHECK(pia.groups == EthnicitySet());
  CHECK(pia.payer == Payer::unknown);
  CHECK(list.reading.lines[1].sex == dentition::Sex::male);
  CHECK(list.reading.lines[1].payer == Payer::medicaid);
  CHECK(list.reading.notes ==
        std::vector<std::string>{"Race and ethnicity not read in 1 row: not stated.",
                                 "Insurance not read in 1 row: not known."});
}
