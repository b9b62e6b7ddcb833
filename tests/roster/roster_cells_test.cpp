#include "roster/list/roster_cells.h"
#include "roster/list/student_id.h"

#include "forms.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using gk::roster::test::day;

namespace {

const auto readOn = day(2026, 9, 15);

using Reads = std::vector<HealthRead>;

std::string gradeRead(const std::string& text) {
  const auto grade = readGrade(text);
  if (!grade) return "none";
  return grade->isEarly ? "early" : grade->grade;
}

} // namespace

TEST_CASE("A name in one column is parted as it is written", "[case-271]") {
  CHECK(splitName("Tolliver-Reed, Mina") == NameParts{"Mina", "", "Tolliver-Reed"});
  CHECK(splitName("Núñez Vega, Lucía María José") ==
        NameParts{"Lucía", "María José", "Núñez Vega"});
  CHECK(splitName("Sedge Jr., Jo") == NameParts{"Jo", "", "Sedge Jr."});
  CHECK(splitName("Sedge, Jr., Jo B") == NameParts{"Jo", "B", "Sedge Jr."});
  CHECK(splitName("Sedge, Jo B, III") == NameParts{"Jo", "B", "Sedge III"});
  CHECK(splitName("Mina Rose Tolliver") == NameParts{"Mina", "Rose", "Tolliver"});
  CHECK(splitName("Maria de la Cruz") == NameParts{"Maria", "", "de la Cruz"});
  CHECK(splitName("Jan van der Oake") == NameParts{"Jan", "", "van der Oake"});
  CHECK(splitName("Al Reed") == NameParts{"Al", "", "Reed"});
  CHECK(splitName("Osei") == NameParts{"Osei", "", ""});
  CHECK(splitName(" , Osei") == NameParts{"Osei", "", ""});
  CHECK(splitName("  ") == NameParts());
}

TEST_CASE("Grades are read in every usual spelling", "[case-271]") {
  for (const auto* one : {"K", "k", "KG", "Kdg", "KDGN", "Kinder", "Kindergarten", "0", "00", "K5"})
    CHECK(gradeRead(one) == "K");
  for (const auto* one : {"TK", "T-K", "PK", "Pre-K", "PreK", "PK3", "PK4", "-1", "K4", "Preschool",
                          "Transitional Kindergarten"})
    CHECK(gradeRead(one) == "early");
  for (const auto* one :
       {"2", "02", "2nd", "2ND GRADE", "Second", "second grade", "Grade 2", "Gr. 2", "GR2", "G2",
        "2.0", "two", "2A", "2-B", "2 C", "Grade: 2", "2 (Hill)"})
    CHECK(gradeRead(one) == "2");
  for (const auto* one : {"K-AM", "K-PM", "KP", "KA", "K (Full Day)", "K Full Day", "Grade: K"})
    CHECK(gradeRead(one) == "K");
  CHECK(gradeRead("12th") == "12");
  CHECK(gradeRead("Tenth") == "10");
  for (const auto* one :
       {"", "13", "-3", "2Z", "13A", "(2)", "2/3", "Hill", "1.5", "002", "ungraded"})
    CHECK(gradeRead(one) == "none");
}

TEST_CASE("A birth date is read in every common order", "[case-271]") {
  const auto plain = [](const std::string& text) { return readDates(text, readOn).plain; };
  for (const auto* one : {"2019-03-04",
                          "2019/3/4",
                          "2019.03.04",
                          "20190304",
                          "4 March 2019",
                          "March 4, 2019",
                          "Mar 4 2019",
                          "04-MAR-19",
                          "4th Mar. 2019",
                          "4 de marzo de 2019",
                          "2019-Mar-04",
                          "43528",
                          "43528.0",
                          "2019-03-04 00:00:00",
                          "2019-03-04T08:15:00Z",
                          "04MAR2019",
                          "4mar19",
                          "Monday, March 4, 2019",
                          "Mon 4 Mar 2019",
                          "lunes, 4 de marzo de 2019",
                          "2019\u201303\u201304"}) {
    INFO(one);
    CHECK(plain(one) == day(2019, 3, 4));
  }
  // Day 43,528 is counted from 1899-12-30, which passes over the 29 February 1900 that never was.
  CHECK(base::daysBetween(day(1900, 3, 1), day(2019, 3, 4)) + 61 == 43528);
  for (const auto* one :
       {"3/4/2019", "03-04-2019", "3.4.19", "03042019", "3042019", "030419", "3/4/2019 12:00:00 AM",
        "3\\4\\2019", "3\u20134\u20132019", "Mon 3/4/2019"}) {
    INFO(one);
    const auto read = readDates(one, readOn);
    CHECK(read.areTwo());
    CHECK(read.as(DateOrder::monthFirst) == day(2019, 3, 4));
    CHECK(read.as(DateOrder::dayFirst) == day(2019, 4, 3));
    CHECK_FALSE(read.as(DateOrder::unsaid));
  }
  const auto proof = readDates("13/12/2018", readOn);
  CHECK(proof.as(DateOrder::unsaid) == day(2018, 12, 13));
  CHECK_FALSE(proof.as(DateOrder::monthFirst));
  CHECK_FALSE(readDates("7/7/2019", readOn).areTwo());
  CHECK(readDates("7/7/2019", readOn).as(DateOrder::unsaid) == day(2019, 7, 7));
  // Two digits are the last such year that is not to come.
  CHECK(readDates("12/31/26", readOn).as(DateOrder::unsaid) == day(2026, 12, 31));
  CHECK(readDates("12/31/27", readOn).isNone());
  for (const auto* one : {"", "soon", "2019-02-30", "2019-13-01", "31/31/2019", "2019", "3/4", "12",
                          "1/2/3/2019", "99999", "1234567890123", "Mar 2019", "Mina 4 2019",
                          "########", "4MA2019", "Mina 3/4/2019"}) {
    INFO(one);
    CHECK(readDates(one, readOn).isNone());
  }
}

TEST_CASE("What a list says of health is an alert, and none is none", "[case-274]") {
  for (const auto* one : {"", " ", "None", "n/a", "NKA", "No known allergies", "no"})
    CHECK(readHealth(one).empty());
  CHECK(readHealth("Latex gloves!") == Reads{{FlagKind::latexAllergy, FlagAction::stop}});
  CHECK(readHealth("methacrylate") == Reads{{FlagKind::acrylateAllergy, FlagAction::stop}});
  CHECK(readHealth("exercise asthma") == Reads{{FlagKind::asthma, FlagAction::ask}});
  CHECK(readHealth("bee stings") == Reads{{FlagKind::other, FlagAction::ask}});
}

TEST_CASE("Every word of a health cell is an alert, one for each kind, the strictest of each",
          "[case-503]") {
  const HealthRead latex{FlagKind::latexAllergy, FlagAction::stop};
  const HealthRead acrylate{FlagKind::acrylateAllergy, FlagAction::stop};
  const HealthRead asthma{FlagKind::asthma, FlagAction::ask};
  const HealthRead rosin{FlagKind::rosinReaction, FlagAction::stop};
  CHECK(readHealth("Acrylic, latex; asthma") == Reads{acrylate, latex, asthma});
  CHECK(readHealth("latex and rubber bands") == Reads{latex});
  CHECK(readHealth("pine nuts (rosin!)") == Reads{rosin});
  CHECK(readHealth("Alergia al látex y acrílico, asma") == Reads{latex, acrylate, asthma});
  CHECK(readHealth("colofonia") == Reads{rosin});
  CHECK(readHealth("convulsiones") == Reads{{FlagKind::seizure, FlagAction::ask}});
  CHECK(readHealth("marcapasos") == Reads{{FlagKind::heart, FlagAction::ask}});
  CHECK(readHealth("plasma donor card") == Reads{{FlagKind::other, FlagAction::ask}});
  // What is there beside a word that is known stands in the alert's own words.
  CHECK(readHealth("Latex; peanuts") == Reads{latex});
}

TEST_CASE("A plain no of a health cell is none, and what only may be one loses no stop",
          "[case-503]") {
  for (const auto* one : {"No latex allergy", "no allergies", "sin alergias",
                          "No allergy to latex.", "not allergic to latex",
                          "No latex or acrylic allergy", "no known food allergies", "NKA; none"}) {
    INFO(one);
    CHECK(readHealth(one).empty());
  }
  const Reads latex{{FlagKind::latexAllergy, FlagAction::stop}};
  for (const auto* one :
       {"No latex", "no latex gloves!", "NKA except latex", "No allergies but latex",
        "no food allergy, latex", "No other allergy latex", "no known allergy (latex)"}) {
    INFO(one);
    CHECK(readHealth(one) == latex);
  }
  const auto both = readHealth("No latex allergy acrylic");
  CHECK(both.size() == 2);
  CHECK(readHealth("No food allergy; bee stings") == Reads{{FlagKind::other, FlagAction::ask}});
}

TEST_CASE("A language is one name, whichever code or word an office writes", "[case-504]") {
  for (const auto* one : {"en", "EN", "eng", "English", "english (US)", "en-US", "English; other"})
    CHECK(readLanguage(one) == "English");
  for (const auto* one : {"es", "spa", "Spanish", "Español", "castellano", "Spanish; Castilian",
                          "es-MX", "Spanish/English", "ES - Spanish"})
    CHECK(readLanguage(one) == "Spanish");
  CHECK(readLanguage(" Haitian Creole ") == "Haitian Creole");
  CHECK(readLanguage("").empty());
}

TEST_CASE("A student ID is read without what a spreadsheet puts around it, and none is none",
          "[case-502]") {
  CHECK(plainStudentId("=\"00123\"") == "00123");
  CHECK(plainStudentId("'00123") == "00123");
  CHECK(plainStudentId("123.0") == "123");
  CHECK(plainStudentId(" S-200.5 ") == "S-200.5");
  CHECK(studentIdKey("00123") == studentIdKey("123"));
  CHECK(studentIdKey("S-200") == studentIdKey("s 200"));
  CHECK(studentIdKey("S-200") != studentIdKey("S-201"));
  for (const auto* one : {"#N/A", "#REF!", "#DIV/0!", "N/A", "NULL", "-", "0", "000", "1.00235E+09",
                          "1E+09", "none"}) {
    INFO(one);
    CHECK(isNoStudentId(one));
  }
  for (const auto* one : {"1", "70101", "S-200", "12E3", "E100", "#70101"}) {
    INFO(one);
    CHECK_FALSE(isNoStudentId(one));
  }
}

TEST_CASE("Whoever the school says is gone is known by the first words", "[case-511]") {
  for (const auto* one : {"Withdrawn 10/2", "inactive", "Exited", "Transferred out", "W/D"})
    CHECK(isGone(one));
  for (const auto* one : {"", "Active", "Enrolled", "Transferred in", "new"})
    CHECK_FALSE(isGone(one));
}

TEST_CASE("Headings are known in many spellings, each as one column", "[case-271]") {
  using enum RosterColumn;
  for (const auto* one : {"DOB", "D.O.B.", "Birth Date", "birth_date", "BIRTHDATE", "Date of Birth",
                          "Fecha de Nacimiento", "Student's DOB"}) {
    INFO(one);
    if (std::string(one) == "Student's DOB")
      CHECK_FALSE(columnCalled(one)); // left to a person
    else
      CHECK(columnCalled(one) == birthDate);
  }
  CHECK(columnCalled("Student Name (Last, First)") == wholeName);
  CHECK(columnCalled("Parent/Guardian") == guardian);
  CHECK(columnCalled("Rm #") == room);
  CHECK(columnCalled("Gender (M/F)") == sex);
  CHECK(columnCalled("School") == school);
  CHECK(columnCalled("School Year") == leftOut);
  CHECK(columnCalled("#") == leftOut);
  CHECK(columnCalled("Phone 3") == phone);
  CHECK_FALSE(columnCalled("Room 4 2"));
  for (const auto* one :
       {"Allergy List", "Allergies 1", "Allergies2", "Food allergies", "Alergias:"})
    CHECK(columnCalled(one) == allergies);
  for (const auto* one : {"Student Medical Information", "Health Issues", "Medical 2"})
    CHECK(columnCalled(one) == health);
  for (const auto* one : {"Health Insurance", "Medical Doctor Phone", "Health Form", "Medicaid"})
    CHECK_FALSE(columnCalled(one));
  CHECK_FALSE(columnCalled("Mina"));
}

TEST_CASE("A guardian's name in two columns is known by its headings", "[case-271]") {
  using enum RosterColumn;
  for (const auto* one : {"Guardian First Name", "Parent 1 First Name", "Parent/Guardian First",
                          "Contact 1 FName", "Mother's First Name", "First name of guardian"}) {
    INFO(one);
    CHECK(columnCalled(one) == guardianFirst);
  }
  for (const auto* one : {"Guardian Last Name", "parent_last_name", "Mother Surname"}) {
    INFO(one);
    CHECK(columnCalled(one) == guardianLast);
  }
  CHECK(columnCalled("Parent 2 First Name") == secondGuardianFirst);
  CHECK(columnCalled("Father's Last Name") == secondGuardianLast);
  CHECK(columnCalled("First Name") == first);
  CHECK(columnCalled("Student Last Name") == last);
  CHECK_FALSE(columnCalled("Parent (last, first)"));
  CHECK_FALSE(columnCalled("Teacher First Name"));
  // Of two alike the next is the second guardian's, as with phones.
  const std::vector<base::CsvRow> rows{{1,
                                        {"First", "Last", "DOB", "Grade", "Guardian First",
                                         "Guardian Last", "Guardian First", "Guardian Last"}}};
  CHECK(suggestLayout(rows).columns == std::vector{first, last, birthDate, grade, guardianFirst,
                                                   guardianLast, secondGuardianFirst,
                                                   secondGuardianLast});
}

TEST_CASE("The headings are in the row that a person chose, and none of a student is remembered",
          "[case-271][case-273]") {
  using enum RosterColumn;
  const std::vector<base::CsvRow> rows{{1, {"First", "Last", "Grade"}},
                                       {2, {"Kid", "Came", "Gr"}},
                                       {3, {"Pia Oake", "3/4/2019", "2"}},
                                       {4, {"Jo Sedge", "3/5/2019", "2"}}};
  CHECK(suggestLayout(rows).heading == 0U);
  auto layout = layoutUnder(rows, 1, "kid=whole name;*dates=month first;");
  CHECK(layout.heading == 1U);
  CHECK(layout.columns == std::vector{wholeName, leftOut, grade});
  CHECK(layout.dates == DateOrder::monthFirst);
  layout.columns = {wholeName, birthDate, grade};
  CHECK(rememberedLayout(rows, layout) == "*dates=month first;kid=whole name;came=birth date;");
  const auto none = layoutUnder(rows, std::nullopt, {});
  CHECK_FALSE(none.heading);
  CHECK(none.columns == std::vector{leftOut, leftOut, leftOut});
  // A student's row chosen for them says names, and is not kept.
  layout = layoutUnder(rows, 2, {});
  layout.columns = {wholeName, birthDate, leftOut};
  CHECK(rememberedLayout(rows, layout).empty());
  layout.columns = {wholeName, leftOut, grade};
  CHECK(rememberedLayout(rows, layout).empty());
}

TEST_CASE("Columns that someone chose are remembered by their headings alone", "[case-273]") {
  const std::vector<base::CsvRow> rows{{1, {"Kid", "Came into the world", "Gr", "Secret"}},
                                       {2, {"Mina Reed", "3/4/2019", "2", "Tolliver"}}};
  auto layout = suggestLayout(rows);
  CHECK_FALSE(layoutProblems(layout).empty());
  layout.heading = 0;
  layout.columns = {RosterColumn::wholeName, RosterColumn::birthDate, RosterColumn::grade,
                    RosterColumn::leftOut};
  layout.dates = DateOrder::dayFirst;
  const auto text = rememberedLayout(rows, layout);
  CHECK(text == "*dates=day first;kid=whole name;came into the world=birth date;");
  CHECK(suggestLayout(rows, text) == layout);
  CHECK(suggestLayout(rows, "nonsense;=;a=b;*dates=never").dates == DateOrder::unsaid);
}
