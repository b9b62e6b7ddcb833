#include "session/importing/messy_rosters.h"

namespace gk::test {

namespace {

using roster::DateOrder;
using roster::EarlyGrades;

/// Rows of these birth dates, a child for each.
std::string born(const std::vector<std::string>& dates, const std::string& grade = "2") {
  std::string csv = "Student,Date of Birth,Grade\n";
  char name = 'A';
  for (const auto& date : dates)
    csv += std::string("Fern") + name++ + " Oake,\"" + date + "\"," + grade + "\n";
  return csv;
}

std::string inGrades(const std::vector<std::string>& grades, const std::string& birth) {
  std::string csv = "First,Last,DOB,Grade Level\n";
  std::string name = "Aspen";
  for (const auto& grade : grades) {
    csv += name + ",Oake," + birth + "," + grade + "\n";
    // No two alike, so that no row waits for another.
    name += static_cast<char>('a' + static_cast<int>(name.size()) * 7 % 26);
    name += static_cast<char>('a' + static_cast<int>(name.size()) * 5 % 26);
  }
  return csv;
}

} // namespace

std::vector<MessyRoster> messyCells() {
  return {
      {.what = "Last, First Middle; suffixes",
       .bytes = "Name,DOB,Grade\n\"Oake, Pia Rose\",2019-05-02,2\n\"Sedge Jr., Jo\",2019-06-03,2\n"
                "\"Fern, Ned A., III\",2019-07-04,2\n",
       .entering = 3},
      {.what = "First Last with de la, van, O'",
       .bytes = "Student,DOB,Grade\nMaria de la Cruz,2019-05-02,2\nJan van der Oake,2019-06-03,2\n"
                "Nora O'Fern,2019-07-04,2\nSuri,2019-08-05,2\n",
       .entering = 4},
      {.what = "dates month first, one proves it",
       .bytes = born({"3/4/2019", "05/06/2019", "12/13/2018"}),
       .entering = 3},
      {.what = "dates day first, one proves it",
       .bytes = born({"4.3.2019", "06.05.2019", "13.12.2018"}),
       .entering = 3},
      {.what = "dates that fit both ways: asked once",
       .bytes = born({"3/4/2019", "05/06/2019", "7/7/2019"}),
       .entering = 1,
       .held = 2},
      {.what = "the same, answered month first",
       .bytes = born({"3/4/2019", "05/06/2019", "7/7/2019"}),
       .entering = 3,
       .dates = DateOrder::monthFirst},
      {.what = "dates of both orders in one list",
       .bytes = born({"12/14/2018", "13/12/2018", "3/4/2019"}),
       .entering = 2,
       .held = 1},
      {.what = "the same, answered day first",
       .bytes = born({"12/14/2018", "13/12/2018", "3/4/2019"}),
       .entering = 2,
       .held = 1,
       .dates = DateOrder::dayFirst},
      {.what = "two-digit years", .bytes = born({"3/14/19", "5-16-19", "12/31/18"}), .entering = 3},
      {.what = "months by name, English and Spanish",
       .bytes =
           born({"Mar 4, 2019", "14-APR-19", "4th May 2019", "5 de junio de 2019", "2019-Jul-06"}),
       .entering = 5},
      {.what = "spreadsheet day numbers",
       .bytes = born({"43528", "43600.0", "43650.5"}),
       .entering = 3},
      {.what = "dates without separators",
       .bytes = born({"20190304", "03152019", "3162019"}),
       .entering = 3},
      {.what = "dates with a time behind",
       .bytes = born({"2019-03-04 00:00:00", "2019-05-06T00:00:00Z", "7/18/2019 12:00:00 AM"}),
       .entering = 3},
      {.what = "days that do not exist, and none",
       .bytes = born({"2019-02-30", "13/13/2019", "soon", "", "2019-05-02"}),
       .entering = 1,
       .held = 4},
      {.what = "birth years of adults and the unborn",
       .bytes = born({"1997-02-03", "2027-01-01", "2019-05-02"}),
       .entering = 1,
       .held = 2},
      {.what = "an age unusual for the grade",
       .bytes = born({"2012-05-02", "2019-05-02"}),
       .entering = 1,
       .held = 1},
      {.what = "first grade in every spelling",
       .bytes =
           inGrades({"1", "01", "1st", "First", "Grade 1", "Gr. 1", "1.0", "G1", "first grade"},
                    "2020-02-03"),
       .entering = 9},
      {.what = "kindergarten in every spelling",
       .bytes = inGrades({"K", "KG", "Kdgn", "0", "Kindergarten", "K5", "kinder"}, "2021-02-03"),
       .entering = 7},
      {.what = "TK and PK wait",
       .bytes = inGrades({"TK", "PK", "Pre-K", "PK4", "K"}, "2021-09-03"),
       .entering = 1,
       .held = 4},
      {.what = "TK and PK as kindergarten",
       .bytes = inGrades({"TK", "PK", "Pre-K", "PK4", "K"}, "2021-09-03"),
       .entering = 5,
       .early = EarlyGrades::kindergarten},
      {.what = "TK and PK left out",
       .bytes = inGrades({"TK", "PK", "K"}, "2021-09-03"),
       .entering = 1,
       .skipped = 2,
       .early = EarlyGrades::leaveOut},
      {.what = "grades that are none",
       .bytes = inGrades({"13", "2/3", "Room 2", "2"}, "2019-02-03"),
       .entering = 1,
       .held = 3},
      {.what = "sex in every spelling",
       .bytes = "First,Last,DOB,Grade,Gender\nPia,Oake,2019-05-02,2,F\nJo,Sedge,2019-06-03,2,boy\n"
                "Ned,Fern,2019-07-04,2,X\nSuri,Moss,2019-08-05,2,\nIvo,Reed,2019-09-06,2,seven\n",
       .entering = 4,
       .held = 1},
      {.what = "allergies and health become alerts",
       .bytes = "First,Last,DOB,Grade,Allergies,Medical Alerts\n"
                "Pia,Oake,2019-05-02,2,Latex; peanuts,\nJo,Sedge,2019-06-03,2,NKA,asthma inhaler\n"
                "Ned,Fern,2019-07-04,2,none,\n",
       .entering = 3},
      {.what = "a health cell that names someone",
       .bytes = "First,Last,DOB,Grade,Health\nPia,Oake,2019-05-02,2,Pia wears a shunt\n",
       .held = 1},
      {.what = "two guardians, phones, language",
       .bytes = "Student First Name,Student Last Name,Student DOB,Gr,Homeroom Teacher,Rm #,"
                "Parent/Guardian 1,Phone,Parent 2,Phone,Home Language\n"
                "Pia,Oake,2019-05-02,2,Hill,4,Ada Oake,(000) 555-0142,Ben Oake,000-555-0143,"
                "Spanish\n",
       .entering = 1},
      {.what = "Spanish headings",
       .bytes = "Apellidos;Nombre;Fecha de nacimiento;Grado;Sexo;Tel\xC3\xA9"
                "fono\n"
                "N\xC3\xBA\xC3\xB1"
                "ez Vega;Luc\xC3\xAD"
                "a;14/03/2019;2;F;000 555 0142\n",
       .entering = 1},
      {.what = "several allergies in one cell, and plain noes",
       .bytes = "First,Last,DOB,Grade,Allergy List\nPia,Oake,2019-05-02,2,\"Latex, acrylic\"\n"
                "Jo,Sedge,2019-06-03,2,No latex allergy\nNed,Fern,2019-07-04,2,sin alergias\n",
       .entering = 3},
      {.what = "a language without a guardian, as a code",
       .bytes = "First,Last,DOB,Grade,Lang\nPia,Oake,2019-05-02,2,spa\n",
       .entering = 1},
      {.what = "grades with sections and half days",
       .bytes = inGrades({"2A", "2-B", "Grade: 2", "2 (Hill)"}, "2019-02-03"),
       .entering = 4},
      {.what = "dates with en dashes, backslashes, weekdays",
       .bytes = born({"3\u201314\u20132019", "5\\16\\2019", "22MAY2019", "Tuesday, June 4, 2019",
                      "########"}),
       .entering = 4,
       .held = 1},
      {.what = "race and insurance in other words",
       .bytes = "First,Last,DOB,Grade,Sex,Race,Insurance\nPia,Oake,2019-05-02,2,F - Female,Two or "
                "more,Blue plan\n",
       .entering = 1},
      {.what = "a status column: one withdrew",
       .bytes = "First,Last,DOB,Grade,Status\nPia,Oake,2019-05-02,2,Active\n"
                "Jo,Sedge,2019-06-03,2,Withdrawn 10/2\n",
       .entering = 1,
       .held = 1},
      {.what = "a bare # that counts the rows",
       .bytes = "#,First,Last,DOB,Grade\n1,Pia,Oake,2019-05-02,2\n2,Jo,Sedge,2019-06-03,2\n",
       .entering = 2},
      {.what = "columns that are of no use",
       .bytes = "No.,School,Student ID,Last,First,MI,DOB,Age,GR,Address,City,Zip,Bus\n"
                "1,CL,70101,Oake,Pia,R,2019-05-02,7,02,1 Fern Ln,Larkmere,00000,12\n",
       .entering = 1},
      {.what = "guardians' names in two columns each",
       .bytes = "First,Last,DOB,Grade,Parent 1 First,Parent 1 Last,Parent 2 First,Parent 2 Last\n"
                "Pia,Oake,2019-05-02,2,Ada,Oake,Ben,Fern\n",
       .entering = 1},
      {.what = "a district's list, and no school is said",
       .bytes = "School,First,Last,DOB,Grade\nNorth,Pia,Oake,2019-05-02,2\n"
                "South,Jo,Sedge,2019-06-03,2\n",
       .isRefused = true},
      {.what = "a district's list that says the school's code",
       .bytes = "School,First,Last,DOB,Grade\nHB,Pia,Oake,2019-05-02,2\n"
                "cl,Jo,Sedge,2019-06-03,2\n",
       .entering = 1,
       .skipped = 1},
      {.what = "one class, and no grade is said",
       .bytes = "First,Last,DOB\nPia,Oake,2019-05-02\n",
       .isRefused = true},
      {.what = "the program's own form columns",
       .bytes =
           "number,first,last,birth_date,grade,consent,services,signed_on,received_on,history\n"
           "2001,Pia,Oake,2019-05-02,2,yes,all,2026-10-01,2026-10-05,yes\n"
           "2002,Jo,Sedge,2019-06-03,2,perhaps,,,,\n",
       .entering = 1,
       .held = 1},
  };
}

/// Of the children of KnownRoster.
std::vector<MessyRoster> messyMatches() {
  return {
      {.what = "known by number, room changed",
       .bytes = "number,first,last,birth_date,grade,room\n"
                "1043,Mina,Tolliver-Reed,2019-03-14,2,7\n",
       .changed = 1},
      {.what = "known by number, as they are",
       .bytes = "number,first,last,birth_date,grade,room\n"
                "1043,MINA,Tolliver Reed,2019-03-14,02,6\n",
       .unchanged = 1},
      {.what = "another child's number",
       .bytes = "number,first,last,birth_date,grade\n1043,Jo,Sedge,2019-06-03,2\n",
       .held = 1},
      {.what = "known by student ID, family name changed",
       .bytes = "Student ID,First,Last,DOB,Grade\nS-200,Osei,Marlowe,2019-02-03,2\n",
       .changed = 1},
      {.what = "a student ID with quite another name",
       .bytes = "Student ID,First,Last,DOB,Grade\nS-200,Jo,Sedge,2019-06-03,2\n",
       .unsure = 1,
       .held = 1},
      {.what = "a student ID with another first name and birth date",
       .bytes = "Student ID,First,Last,DOB,Grade\nS-200,Rosalind,Brackwater,2017-11-02,4\n",
       .unsure = 1,
       .held = 1},
      {.what = "student IDs that are none, or of two",
       .bytes = "Student ID,Name,DOB,Grade\n#N/A,\"Tolliver-Reed, Mina\",2019-03-14,2\n"
                "1.00235E+09,\"Quince, Ada\",2018-06-05,3\n7,\"Oake, Pia\",2019-05-02,2\n"
                "7,\"Sedge, Jo\",2019-06-03,2\n",
       .entering = 2,
       .unchanged = 2},
      {.what = "known by name and birth date",
       .bytes = "Name,DOB,Grade\n\"Tolliver-Reed, Mina\",2019-03-14,2\n",
       .unchanged = 1},
      {.what = "first and last changed places",
       .bytes = "First,Last,DOB,Grade\nTolliver-Reed,Mina,2019-03-14,2\n",
       .unchanged = 1},
      {.what = "a name almost the same",
       .bytes = "First,Last,DOB,Grade\nMina,Toliver-Reed,2019-03-14,2\n",
       .unsure = 1,
       .held = 1},
      {.what = "another family name, the same birth date",
       .bytes = "First,Last,DOB,Grade\nMina,Marlowe,2019-03-14,2\n",
       .unsure = 1,
       .held = 1},
      {.what = "day and month of birth changed places",
       .bytes = "First,Last,DOB,Grade\nOsei,Brackwater,2019-03-02,2\n",
       .unsure = 1,
       .held = 1},
      {.what = "a namesake of another age",
       .bytes = "First,Last,DOB,Grade\nMina,Tolliver-Reed,2017-10-30,4\n",
       .entering = 1},
      {.what = "twins, both on the list",
       .bytes = "First,Last,DOB,Grade\nAda,Quince,2018-06-05,3\nIda,Quince,2018-06-05,3\n",
       .unchanged = 2},
      {.what = "twins, one of them on the list",
       .bytes = "First,Last,DOB,Grade\nIda,Quince,2018-06-05,3\n",
       .unchanged = 1},
      {.what = "twins and a third, who is new",
       .bytes = "First,Last,DOB,Grade\nAda,Quince,2018-06-05,3\nIda,Quince,2018-06-05,3\n"
                "Rosalind,Quince,2018-06-05,3\n",
       .entering = 1,
       .unchanged = 2},
      {.what = "a child of another school moved here",
       .bytes = "First,Last,DOB,Grade,Room\nTeo,Saltmarsh,2018-08-21,3,9\n",
       .changed = 1},
      {.what = "next year's list: a grade up, others gone",
       .bytes = "Student ID,Name,DOB,Gr,HR\n,\"Tolliver-Reed, Mina\",3/14/2019,3,12\n"
                "S-200,\"Brackwater, Osei\",2/3/2019,3,12\n,\"Quince, Ada\",6/5/2018,4,14\n"
                ",\"Oake, Pia\",5/2/2019,3,12\n",
       .entering = 1,
       .changed = 3},
      {.what = "a phone changed, one added",
       .bytes = "First,Last,DOB,Grade,Guardian,Phone,Guardian 2,Guardian 2 Phone\n"
                "Mina,Tolliver-Reed,2019-03-14,2,Rosa Tolliver,000-555-0199,Ben Reed,"
                "000-555-0200\n",
       .changed = 1},
      {.what = "the same phone, written otherwise",
       .bytes = "First,Last,DOB,Grade,Guardian,Phone\n"
                "Mina,Tolliver-Reed,2019-03-14,2,rosa tolliver,(000) 555.0101\n",
       .unchanged = 1},
  };
}

std::vector<MessyRoster> messyRosters() {
  auto all = messyBytes();
  for (auto* const more : {&messyRows, &messyCells, &messyWorkbooks, &messyMatches})
    for (auto& one : more())
      all.push_back(std::move(one));
  return all;
}

} // namespace gk::test
