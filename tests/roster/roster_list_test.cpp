#include "roster/list/roster_list.h"

#include "forms.h"
#include "list_reading.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using base::ErrorCode;
using gk::roster::test::day;
using gk::roster::test::readList;

namespace {

const auto importDay = day(2026, 9, 15);

const std::string full =
    "number,first,middle,last,name_used,birth_date,grade,room,teacher,sex,guardian,relation,phone,"
    "language,consent,signed_on,received_on,valid_until,services,history,ethnicity,payer\n";

base::Error trouble(const std::string& csv) {
  const auto lines = readList(csv, importDay);
  REQUIRE_FALSE(lines);
  return lines.error();
}

bool has(const base::Error& error, std::string_view words) {
  INFO(error.detail);
  CHECK(error.detail.find(words) != std::string::npos);
  return error.detail.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("A full line of a roster is read whole") {
  const auto lines = readList(
      full + "1043,Mina,A,Tolliver-Reed,Mina,2019-02-03,2,6,Fern,female,Ada Tolliver,mother,"
             "000-555-0142,English,yes,2026-09-08,2026-09-10,2027-06-30,"
             "screening; sealants;varnish,yes,White; Hispanic or Latino,Medicaid\n",
      importDay);
  REQUIRE(lines);
  REQUIRE(lines->size() == 1);
  const auto& line = lines->front();
  CHECK(line == RosterLine{.line = 2,
                           .row = 1,
                           .number = withCheckDigit("1043"),
                           .studentId = "",
                           .first = "Mina",
                           .middle = "A",
                           .last = "Tolliver-Reed",
                           .nameUsed = "Mina",
                           .birth = day(2019, 2, 3),
                           .birthVerdict = BirthVerdict::fine,
                           .grade = "2",
                           .room = "6",
                           .teacher = "Fern",
                           .sex = dentition::Sex::female,
                           .guardian = {"Ada Tolliver", "mother", "000-555-0142"},
                           .signer = Relation::parent,
                           .language = "English",
                           .consent = {.state = ConsentState::yes,
                                       .services = {Service::screening, Service::sealants,
                                                    Service::varnish},
                                       .signedOn = day(2026, 9, 8),
                                       .receivedOn = day(2026, 9, 10),
                                       .validUntil = day(2027, 6, 30),
                                       .history = HistoryAnswered::yes},
                           .groups = {Ethnicity::white, Ethnicity::hispanic},
                           .payer = Payer::medicaid});
}

TEST_CASE("The needed columns are enough and come in any order") {
  const auto lines = readList("Grade,Birth Date,Last\r\nk,2021-03-04,Lindenholt\r\n", importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).grade == "K");
  CHECK(lines->at(0).number.empty());
  CHECK(lines->at(0).consent == RosterConsent{});
  CHECK(lines->at(0).sex == dentition::Sex::notStated);
}

TEST_CASE("Names keep their accents and apostrophes and order", "[case-17]") {
  const auto lines = readList("\xEF\xBB\xBF"
                              "first,last,birth_date,grade\n"
                              "Zoë,\"Ó Súilleabháin, Núñez\",2019-02-03,2\n"
                              "Ngọc Ánh,D’Amico-Łuk,2019-02-03,2\n",
                              importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).first == "Zoë");
  CHECK(lines->at(0).last == "Ó Súilleabháin, Núñez");
  CHECK(lines->at(1).last == "D’Amico-Łuk");
}

TEST_CASE("A child with one name is read and one with none is not", "[case-17]") {
  const std::string head = "first,last,birth_date,grade\n";
  CHECK(readList(head + "Osei,,2019-02-03,2\n,Brackwater,2019-02-03,2\n", importDay));
  CHECK(readList("first,birth_date,grade\nOsei,2019-02-03,2\n", importDay));
  has(trouble(head + " , ,2019-02-03,2\n"),
      "line 2, first name: a student needs a first or a last name");
}

TEST_CASE("Quoted commas and line breaks stay in their cell and lines are counted in the file") {
  const auto lines = readList("last,birth_date,grade,guardian\n"
                              "Saltmarsh,2019-02-03,2,\"Ada\nSaltmarsh, Jo\"\n\n"
                              "Brookmere,2019-02-03,2,\n",
                              importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).guardian.name == "Ada\nSaltmarsh, Jo");
  CHECK(lines->at(1).line == 5);
}

TEST_CASE("A date that is no day is named by line and column and never repeated") {
  const std::string head = "last,birth_date,grade\n";
  for (auto cell : {"2019-02-30", "03/04/2019", "", "Tolliver"}) {
    // The second can be read two ways, and one date alone proves neither.
    const auto error = trouble(head + "Reed," + cell + ",2\n");
    CHECK(error.code == ErrorCode::dateMalformed);
    has(error, "1 problem in the roster, nothing was imported: line 2, birth date: ");
    CHECK(error.detail.find("Tolliver") == std::string::npos);
  }
}

TEST_CASE("An impossible age is refused and an unusual one is marked to ask", "[case-18]") {
  const std::string head = "last,birth_date,grade\n";
  const auto error = trouble(head + "Hatherwick,1997-02-03,2\n");
  CHECK(error.code == ErrorCode::dateMalformed);
  has(error, "line 2, birth date: makes an age outside 3 to 19");
  const auto lines = readList(head + "Hatherwick,2013-02-03,2\n", importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).birthVerdict == BirthVerdict::askUnusualForGrade);
}

TEST_CASE("Numbers are given or proved their check digit and are never used twice") {
  const std::string head = "number,last,birth_date,grade\n";
  const auto proved = withCheckDigit("1044");
  const auto lines =
      readList(head + "1043,Reed,2019-02-03,2\n" + proved + ",Oake,2019-02-03,2\n", importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).number == withCheckDigit("1043"));
  CHECK(lines->at(1).number == proved);

  auto wrong = proved;
  wrong.back() = wrong.back() == '9' ? '0' : static_cast<char>(wrong.back() + 1);
  has(trouble(head + wrong + ",Oake,2019-02-03,2\n"), "line 2, number: ");
  const auto twice = trouble(head + "1044,Reed,2019-02-03,2\n" + proved + ",Oake,2019-02-03,2\n");
  CHECK(twice.code == ErrorCode::csvMalformed);
  has(twice, "line 3, number: the same as on line 2");
}

TEST_CASE("Words that are none of the form's are named with those that are") {
  const std::string head = "last,birth_date,grade,sex,consent,services,history\n";
  const auto row = [&](const std::string& cells) { return head + "Reed,2019-02-03,2," + cells; };
  has(trouble(row(",yes,screening;sealant,yes\n")), "line 2, services: ");
  has(trouble(row(",perhaps,,\n")), "line 2, consent: not one of: yes, yes with limits");
  has(trouble(row("seven,,,\n")), "line 2, sex: not one of: female, male");
  has(trouble(row(",yes,all,some\n")),
      "line 2, health history answered: not one of: yes, partly, no");
  const auto lines = readList(row("Female,Yes With Limits,ALL,partly\n"), importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).consent.services == ServiceSet::all());
  CHECK(lines->at(0).consent.state == ConsentState::yesWithLimits);
}

TEST_CASE("A blank consent is not returned and a blank history is not answered", "[case-10]") {
  const std::string head = "last,birth_date,grade,consent,signed_on,history\n";
  const auto lines = readList(head + "Reed,2019-02-03,2,,,\nOake,2019-02-03,2,yes,,\n", importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).consent.state == ConsentState::notReturned);
  CHECK(lines->at(1).consent.history == HistoryAnswered::no);
  has(trouble(head + "Reed,2019-02-03,2,,2026-09-08,\n"),
      "line 2, consent: blank means not returned, yet signed on is filled");
}

TEST_CASE("A relation that is not known to entitle waits for review", "[case-8]") {
  const std::string head = "last,birth_date,grade,relation\n";
  const auto signer = [&](const std::string& relation) {
    return readList(head + "Reed,2019-02-03,2," + relation + "\n", importDay).value().at(0).signer;
  };
  CHECK(signer("") == Relation::parent);
  CHECK(signer("Father") == Relation::parent);
  CHECK(signer("legal guardian") == Relation::legalGuardian);
  CHECK(signer("\"self, of age\"") == Relation::selfOfAge);
  CHECK(signer("older sister") == Relation::other);
}

TEST_CASE("A list without a needed column, or with one twice, says what is missing") {
  has(trouble("first,grade\nMina,2\n"), "no column is the birth date");
  has(trouble("first,birth_date\nMina,2019-02-03\n"), "no column is the grade");
  has(trouble("number,birth_date,grade\n1,2019-02-03,2\n"), "no column is the name");
  // Of two columns of one heading the first counts; what is not known is left out.
  const auto lines =
      readList("last,birth_date,grade,last,servces\nReed,2019-02-03,2,Oake,all\n", importDay);
  REQUIRE(lines);
  CHECK(lines->at(0).last == "Reed");
  CHECK(lines->at(0).consent == RosterConsent{});
}

TEST_CASE("A file without a header row does not spill its names into the error") {
  const auto error = trouble("Mina,Tolliver-Reed,2019-02-03,2\n");
  CHECK(error.code == ErrorCode::csvMalformed);
  CHECK(error.detail.find("Mina") == std::string::npos);
  CHECK(error.detail.find("Tolliver") == std::string::npos);
}

TEST_CASE("A short row's last cells are blank, and a wide row waits") {
  has(trouble("last,birth_date,grade\nReed,2019-02-03\n"), "line 2, grade: write K or 1 to 12");
  CHECK(readList("last,birth_date,grade,room\nReed,2019-02-03,2\n", importDay));
  has(trouble("last,birth_date,grade\nReed,2019-02-03,2,Mina\n"),
      "line 2, row: more cells than there are headings");
}

TEST_CASE("All problems are counted and the first five told") {
  std::string csv = "last,birth_date,grade\n";
  for (int i = 0; i < 7; ++i)
    csv += "Reed" + std::to_string(i) + ",2019-02-03,13\n"; // a row twice is skipped
  const auto error = trouble(csv);
  CHECK(error.code == ErrorCode::csvMalformed);
  has(error, "7 problems in the roster");
  has(error, "line 6, grade: write K or 1 to 12; and 2 more");
  CHECK(error.detail.find("line 7") == std::string::npos);
}

TEST_CASE("A guardian's name is put together of two columns, and a half gives way to the whole",
          "[case-271]") {
  const auto lines = readList("First,Last,DOB,Grade,Guardian First,Guardian Last,Phone,"
                              "Father First Name,Father Last Name,Parent\n"
                              "Pia,Oake,2019-05-02,2,Ada,Oake,000-555-0142,Ben,,\n"
                              "Jo,Sedge,2019-06-03,2,,Sedge,,,,Cy Sedge\n",
                              importDay);
  REQUIRE(lines);
  REQUIRE(lines->size() == 2);
  CHECK(lines->at(0).guardian == RosterGuardian{"Ada Oake", "", "000-555-0142"});
  CHECK(lines->at(0).secondGuardian.name == "Ben");
  CHECK(lines->at(1).guardian.name == "Cy Sedge");
  CHECK(lines->at(1).secondGuardian.isBlank());
}

TEST_CASE("A class's list without grade and room takes what is said of all its rows",
          "[case-271]") {
  const auto rows = gk::roster::test::rowsOf("First,Last,DOB\nPia,Oake,2019-05-02\n"
                                             "Total: 2,,\nJo,Sedge,2019-06-03\n");
  auto layout = suggestLayout(rows);
  CHECK(layoutProblems(layout).size() == 1);
  layout.gradeOfAll = "2";
  layout.roomOfAll = "6";
  CHECK(layoutProblems(layout).empty());
  const auto reading = readRoster(rows, layout, importDay);
  REQUIRE(reading.lines.size() == 2);
  CHECK(reading.skipped.size() == 1);
  for (const auto& line : reading.lines) {
    CHECK(line.grade == "2");
    CHECK(line.room == "6");
  }
  CHECK(rememberedLayout(rows, layout).empty());
  // A column that says it goes before.
  const auto graded = gk::roster::test::rowsOf("First,Last,DOB,Gr\nPia,Oake,2019-05-02,1\n");
  auto said = suggestLayout(graded);
  said.gradeOfAll = "2";
  CHECK(readRoster(graded, said, importDay).lines.at(0).grade == "1");
}

TEST_CASE("Of a list of several schools the rows of one are read, and the others are skipped",
          "[case-271]") {
  const auto rows = gk::roster::test::rowsOf("School,First,Last,DOB,Grade\n"
                                             "Cobble Lantern,Pia,Oake,2019-05-02,2\n"
                                             "Heron Bend,Jo,Sedge,2019-06-03,2\n"
                                             "COBBLE LANTERN,Ned,Fern,2019-07-04,2\n"
                                             ",Suri,Moss,2019-08-05,2\n"
                                             "Total of both: 4,,,,\n");
  auto layout = suggestLayout(rows);
  CHECK(schoolsIn(rows, layout) == std::vector<std::string>{"Cobble Lantern", "Heron Bend"});
  CHECK(readRoster(rows, layout, importDay).lines.size() == 4);
  layout.rowsOf = "Cobble Lantern";
  const auto one = readRoster(rows, layout, importDay);
  CHECK(one.lines.size() == 3); // a blank cell is of the school that sent the list
  REQUIRE(one.skipped.size() == 2);
  CHECK(one.skipped[0].why == "of another school");
  layout.rowsOf = "";
  CHECK(readRoster(rows, layout, importDay).lines.size() == 4);
  CHECK(rememberedLayout(rows, layout).empty());
}
