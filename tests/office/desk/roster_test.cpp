#include "office/desk.h"

using namespace gk;
using gk::test::Desk;
using gk::test::twoChildren;

namespace {

std::vector<std::string> import(const std::string& book, const std::string& csv,
                                std::vector<std::string> moreRows = {}) {
  std::vector<std::string> words{"import-roster", book,        csv,    "--school", "CL",
                                 "--term",        "Fall 2026", "--by", "IM"};
  words.insert(words.end(), moreRows.begin(), moreRows.end());
  return words;
}

session::Session unlocked(Desk& desk, const std::string& book) {
  auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                        {desk.clock, desk.random}, store::Access::readOnly);
  REQUIRE(session);
  REQUIRE(session->unlock("granite lantern 7"));
  return std::move(*session);
}

std::size_t childrenIn(Desk& desk, const std::string& book) {
  return unlocked(desk, book).names().value().size();
}

} // namespace

TEST_CASE("A roster brings the children with their forms") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto told = desk.did(import(book, desk.write("r.csv", twoChildren), {"--json"})).json();
  CHECK(told.at("children") == 2);
  CHECK(told.at("forms") == 1);
  CHECK(told.at("incomplete").empty());

  auto session = unlocked(desk, book);
  const auto found = session.findChildren("tolliver").value();
  REQUIRE(found.size() == 1);
  CHECK(found[0].number == roster::withCheckDigit("1001"));
  CHECK(session.identity(found[0].child).value().guardians[0].name == "Ada Tolliver");
  const auto forms = session.consents(found[0].child).value();
  REQUIRE(forms.size() == 1);
  CHECK(forms[0].value.validFrom->iso() == "2026-10-01");
  CHECK(forms[0].value.validUntil->iso() == "2026-12-18"); // the end of the term
  const auto other = session.findChildren("saltmarsh").value();
  REQUIRE(other.size() == 1);
  CHECK(session.consents(other[0].child).value().empty());

  const auto term = desk.did({"totals", book, "--json"}).json().at("terms").at(0);
  const auto schools = gk::test::rowsOf(term, "participation");
  CHECK(schools.front().at("consented") == 1);
  CHECK(schools.back().at("consented") == 1); // the total
}

TEST_CASE("A yes that breaks a rule of forms is entered as incomplete and said so") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto csv = desk.write("r.csv", "number,last,birth_date,grade,consent,services,signed_on,"
                                       "received_on,history\n"
                                       "77,Quince,2019-03-04,2,yes,all,2026-10-01,2026-10-05,\n");
  const auto told = desk.did(import(book, csv));
  CHECK(told.out.find("Line 2, student 77-") != std::string::npos);
  CHECK(told.out.find("the health history is blank") != std::string::npos);
  CHECK(told.out.find("Quince") == std::string::npos);
  auto session = unlocked(desk, book);
  const auto found = session.findChildren("quince").value();
  REQUIRE(found.size() == 1);
  CHECK(session.consents(found[0].child).value()[0].value.state ==
        roster::ConsentState::incomplete);
}

TEST_CASE("Children without a number get the next one that is free") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(import(book, desk.write("r.csv", "number,last,birth_date,grade\n"
                                            "1500,Quince,2019-03-04,2\n,Sedge,2019-03-05,2\n")));
  CHECK(unlocked(desk, book).findChildren("sedge").value()[0].number ==
        roster::withCheckDigit("1501"));
}

TEST_CASE("A roster is taken in whole or not at all") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto refused = [&](const std::string& text) {
    return desk.refusal(import(book, desk.write("r.csv", text)));
  };
  const std::string good = "Quince,2019-03-04,2\n";
  const std::string head = "last,birth_date,grade\n";
  CHECK(refused("") == "input.csv");
  CHECK(refused(head) == "input.csv");
  CHECK(refused("last,grade\nQuince,2\n") == "input.csv");
  CHECK(refused(head + good + "Sedge,2019-03-05\n") == "input.csv");
  CHECK(desk.said("line 3"));
  CHECK(refused(head + good + "Sedge,2019-02-30,2\n") == "input.date");
  CHECK(desk.said("line 3, birth date"));
  CHECK(refused(head + good + "\"Sedge,2019-03-05,2\n") == "input.csv");
  CHECK(desk.said("a quotation mark is never closed"));
  CHECK(refused(head + good + "S\adge,2019-03-05,2\n") == "input.csv");
  CHECK(desk.said("line 3, row: a character could not be read"));
  CHECK(refused(head + good + "Quince,2019-03-04,3\n") == "input.csv");
  CHECK(desk.said("line 3, name: may be the student on line 2 (the same name and birth date)"));
  CHECK(refused(head + good + "Sedge,2012-03-05,2\n") == "input.csv");
  CHECK(desk.said("line 3, birth date: unusual for grade 2"));
  CHECK(refused("last,birth_date,grade,consent,signed_on,received_on\n"
                "Quince,2019-03-04,2,no,2026-10-05,2026-10-01\n") == "input.csv");
  CHECK(desk.said("line 2, received on"));
  CHECK(refused("last,birth_date,grade,consent,signed_on,valid_until\n"
                "Quince,2019-03-04,2,no,2026-10-05,2026-10-01\n") == "input.csv");
  CHECK(desk.said("line 2, valid until"));
  CHECK_FALSE(desk.said("Quince"));
  CHECK(childrenIn(desk, book) == 0);
  desk.did(import(book, desk.write("r.csv", head + "Sedge,2012-03-05,2\n"), {"--ages-confirmed"}));
  CHECK(childrenIn(desk, book) == 1);
}

TEST_CASE("A roster's child who is like one of the book is entered only when said to be another",
          "[case-107]") {
  Desk desk;
  const auto book = desk.makeBook();
  const std::string head = "first,last,birth_date,grade\n";
  desk.did(import(book, desk.write("r.csv", head + "Mina,Tolliver,2019-03-04,2\n")));
  const auto again = desk.write("s.csv", head + "Mina,Toliver,2019-03-04,2\n");
  CHECK(desk.refusal(import(book, again)) == "input.csv");
  CHECK(desk.said("line 2, name: may be the student of number"));
  CHECK(desk.said("--others-confirmed"));
  CHECK_FALSE(desk.said("oliver"));
  CHECK(childrenIn(desk, book) == 1);
  desk.did(import(book, again, {"--others-confirmed"}));
  CHECK(childrenIn(desk, book) == 2);
}

TEST_CASE("A roster read in twice changes nothing, and another child's number is refused",
          "[case-273]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto numbered = [&](const std::string& name) {
    return desk.write("n.csv", "number,last,birth_date,grade\n1043," + name + ",2019-03-04,2\n");
  };
  desk.did(import(book, desk.write("r.csv", twoChildren)));
  desk.did(import(book, numbered("Quince")));
  const auto again = desk.did(import(book, desk.file("r.csv"), {"--json"})).json();
  CHECK(again.at("children") == 0);
  CHECK(again.at("changed") == 0);
  CHECK(again.at("unchanged") == 2);
  CHECK(desk.did(import(book, numbered("Quince"), {"--json"})).json().at("unchanged") == 1);
  CHECK(desk.refusal(import(book, numbered("Sedge-Oakenfell"))) == "input.csv");
  CHECK(desk.said("line 2, name: may be the student of number 1043-"));
  CHECK(desk.refusal(import(book, desk.write("o.csv", "number,first,last,birth_date,grade\n"
                                                      "1043,Osei,Brackwater,2018-06-05,2\n"))) ==
        "input.csv");
  CHECK(desk.said("line 2, number: is another student's in the logbook"));
  CHECK(childrenIn(desk, book) == 3);
}

TEST_CASE("A preview counts what a list changes and writes nothing", "[case-273]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(import(book, desk.write("r.csv", "first,last,birth_date,grade,room\n"
                                            "Mina,Quince,2019-03-04,2,4\n"
                                            "Osei,Sedge,2019-05-04,2,4\n")));
  const auto before = base::readFile(book).value();
  const auto list = desk.write("s.csv", "Cobble Lantern,,,,\nFirst Name,Last Name,DOB,Gr,Room\n"
                                        "Mina,Quince,3/14/2019,2,4\nOsei,Sedge,2019-05-04,02,7\n"
                                        "Pia,Oake,2019-06-31,2,7\nSuri,Moss,2019-07-01,2nd,7\n"
                                        "Total: 4,,,,\n");
  const auto told =
      desk.did(import(book, list, {"--preview", "--json", "--problems", desk.file("p.csv")}))
          .json();
  CHECK(told.at("preview") == true);
  CHECK(told.at("children") == 1);
  CHECK(told.at("changed") == 1);
  CHECK(told.at("changed_room") == 1);
  CHECK(told.at("held").size() == 2);
  CHECK(told.at("skipped").size() == 2);
  CHECK(base::readFile(book).value() == before);
  const auto problems = base::readFile(desk.file("p.csv")).value();
  CHECK(problems.find("Pia,Oake,2019-06-31,2,7,\"line 5, birth date: not a day") !=
        std::string::npos);
  // The same list again, with the good rows and what was answered.
  CHECK(desk.refusal(import(book, list)) == "input.csv");
  const auto mina = unlocked(desk, book).findChildren("mina").value().at(0).number;
  const auto done =
      desk.did(import(book, list, {"--accept-good", "--same", "3=" + mina, "--json"})).json();
  CHECK(done.at("children") == 1);
  CHECK(done.at("changed") == 2);
  CHECK(done.at("held").size() == 1);
  CHECK(childrenIn(desk, book) == 3);
}

TEST_CASE("Dates that fit both ways are asked about, and columns can be said", "[case-271]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto list = desk.write("r.csv", "Kid;Came;Gr\nQuince, Mina;3/4/2019;2\n");
  CHECK(desk.refusal(import(book, list)) == "input.csv");
  CHECK(desk.said("no column is the name"));
  CHECK(desk.refusal(import(book, list, {"--columns", "name,birthday,grade"})) == "call.malformed");
  const std::vector<std::string> columns{"--columns", "name, birth date, grade"};
  CHECK(desk.refusal(import(book, list, columns)) == "input.date");
  auto said = columns;
  said.insert(said.end(), {"--dates", "day first"});
  desk.did(import(book, list, said));
  auto session = unlocked(desk, book);
  const auto mina = session.findChildren("mina").value().at(0).child;
  CHECK(session.identity(mina).value().birth.iso() == "2019-04-03");
}

TEST_CASE("A roster needs a passphrase that opens the book and a school and term it has") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto csv = desk.write("r.csv", twoChildren);
  CHECK(desk.refusal(import(book, desk.file("none.csv"))) == "file.not-found");
  CHECK(desk.refusal(import(book, csv, {"--passphrase-file", desk.write("w", "wrong\n")})) ==
        "vault.wrong-passphrase");
  CHECK(desk.refusal({"import-roster", book, csv, "--school", "XX", "--term", "Fall 2026", "--by",
                      "IM"}) == "record.not-found");
  CHECK(desk.said("CL"));
  CHECK(desk.refusal({"import-roster", book, csv, "--school", "CL", "--term", "Spring 2027", "--by",
                      "IM"}) == "record.not-found");
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  CHECK(desk.refusal(import(book, csv)) == "call.malformed");
  CHECK(childrenIn(desk, book) == 0);
}

TEST_CASE("A roster import is taken back by command, with a reason", "[case-116]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(import(book, desk.write("r.csv", twoChildren)));
  const auto number = unlocked(desk, book).findChildren("mina").value().at(0).number;
  const std::vector<std::string> words{
      "take-back-import",          book, "--child", number, "--by", "IM", "--reason",
      "the list of another school"};
  CHECK(desk.refusal({words.begin(), words.end() - 2}) == "call.malformed");
  desk.did(words);
  CHECK(childrenIn(desk, book) == 0);
  desk.did(import(book, desk.file("r.csv")));
}

TEST_CASE("One class's list takes the grade and the room that are said of all its rows",
          "[case-271]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto csv = desk.write("class.csv", "First,Last,DOB\nMina,Quince,2019-03-04\n");
  CHECK(desk.refusal(import(book, csv)) == "input.csv");
  CHECK(desk.said("no column is the grade"));
  CHECK(desk.refusal(import(book, csv, {"--grade", "TK"})) == "call.malformed");
  desk.did(import(book, csv, {"--grade", "2nd", "--room", "6"}));
  auto session = unlocked(desk, book);
  const auto found = session.findChildren("quince").value();
  REQUIRE(found.size() == 1);
  const auto card = session.child(found.front().child).value().value;
  CHECK(card.grade == "2");
  CHECK(card.room == "6");
}

TEST_CASE("A list of several schools is refused until it is said whose rows are meant",
          "[case-271]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto csv = desk.write("both.csv", "School,First,Last,DOB,Grade\n"
                                          "North,Mina,Quince,2019-03-04,2\n"
                                          "South,Osei,Sedge,2019-05-04,2\n");
  CHECK(desk.refusal(import(book, csv)) == "input.csv");
  CHECK(desk.said("rows of 2 schools"));
  CHECK(childrenIn(desk, book) == 0);
  desk.did(import(book, csv, {"--rows-of", "north"}));
  CHECK(childrenIn(desk, book) == 1);
  desk.did(import(book, csv, {"--rows-of", "all"}));
  CHECK(childrenIn(desk, book) == 2);
}
