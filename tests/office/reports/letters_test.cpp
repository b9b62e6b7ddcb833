#include "office/desk.h"

#include <filesystem>

using namespace gk;
using gk::test::Desk;

namespace {

/// A book with one absent child whose guardian reads Spanish: the shortest way to a letter.
std::string bookWithALetter(Desk& desk) {
  const auto book = desk.makeBook();
  desk.did({"import-roster", book,
            desk.write("r.csv", "first,last,birth_date,grade,room,consent,services,signed_on,"
                                "received_on,history,guardian,language\n"
                                "Lupe,Saltmarsh,2019-03-04,2,6,yes,all,2026-10-01,2026-10-05,yes,"
                                "Rosa Saltmarsh,Spanish\n"),
            "--school", "CL", "--term", "Fall 2026", "--by", "IM"});
  desk.did({"open-day", book, "--school", "CL", "--date", "2026-11-17", "--by", "IM"});
  auto session = session::Session::open(
      book, base::LaptopId(base::makeUuid7(desk.clock.now().at, desk.random)),
      {desk.clock, desk.random});
  REQUIRE(session);
  const auto day = session->openDayNow();
  REQUIRE(day);
  const auto board = session->board(day->id);
  REQUIRE(board);
  const auto members = session->members();
  REQUIRE(members);
  REQUIRE(session->endVisit({members->front().id, {}},
                            {board->front().child, day->id, chairside::DayEnd::absent, {}}));
  return book;
}

std::string textOf(const std::string& path) {
  auto text = base::readFile(path);
  REQUIRE(text);
  return *text;
}

} // namespace

TEST_CASE("A day's letters are written into a folder by number and not by name", "[case-79]") {
  Desk desk;
  const auto book = bookWithALetter(desk);
  const auto told = desk.did({"letters", book, desk.file("out"), "--json"}).json();
  REQUIRE(told.at("written").size() == 1);
  const auto& one = told.at("written").at(0);
  CHECK(one.at("kind") == "absent");
  CHECK(one.at("language") == "Spanish");
  CHECK(one.at("draft") == true);
  const std::string file = one.at("file");
  CHECK(file.find("Lupe") == std::string::npos);
  CHECK(file.ends_with("-spanish.txt"));
  const auto text = textOf(desk.file("out/" + file));
  CHECK(text.find("Estimado/a Rosa Saltmarsh:") != std::string::npos);
  CHECK(text.find("BORRADOR") != std::string::npos);

  desk.did({"letters", book, desk.file("pages"), "--html"});
  CHECK(textOf(desk.file("pages/" + file.substr(0, file.size() - 4) + ".html"))
            .starts_with("<!DOCTYPE html>"));
}

TEST_CASE("Letters are not written without the passphrase") {
  Desk desk;
  const auto book = bookWithALetter(desk);
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  CHECK(desk.refusal({"letters", book, desk.file("out")}) == "call.malformed");
  CHECK_FALSE(std::filesystem::exists(desk.file("out")));
  CHECK(desk.refusal({"letters", book, desk.file("out"), "--passphrase-file",
                      desk.write("wrong", "not it\n")}) == "vault.wrong-passphrase");
}

TEST_CASE(
    "The templates are copied to be edited and an edited one is used from beside the logbook") {
  Desk desk;
  const auto book = bookWithALetter(desk);
  const auto told = desk.did({"letter-templates", desk.file("letters")});
  CHECK(told.out == "english.txt\nspanish.txt\n");
  CHECK(desk.did({"letter-templates", desk.file("letters")}).out.starts_with("Nothing written"));

  auto text = textOf(desk.file("letters/spanish.txt"));
  text.replace(text.find("Estimado/a"), 10, "Querida familia de");
  desk.write("letters/spanish.txt", text);
  desk.did({"letters", book, desk.file("out")});
  std::string letter;
  for (const auto& entry : std::filesystem::directory_iterator(desk.file("out")))
    letter += textOf(entry.path().string());
  CHECK(letter.find("Querida familia de Rosa Saltmarsh") != std::string::npos);

  desk.write("letters/spanish.txt", text + "{?nobody}\n");
  CHECK(desk.refusal({"letters", book, desk.file("out")}) == "letter.template");
  CHECK(desk.said("spanish.txt:"));
}

TEST_CASE("Languages that guardians asked for stand beside the letters there are", "[case-80]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto row = [](const std::string& name, const std::string& consent,
                      const std::string& language) {
    return name + ",2019-03-04,2," + consent + ",Rosa,parent," + language + "\n";
  };
  const std::string yes = "yes,all,2026-10-01,2026-10-05,yes";
  desk.did(
      {"import-roster", book,
       desk.write("r.csv", "last,birth_date,grade,consent,services,signed_on,received_on,"
                           "history,guardian,relation,language\n" +
                               row("Saltmarsh", yes, "Spanish") + row("Hollowell", yes, "Spanish") +
                               row("Inkmeadow", yes, "Marshallese") + row("Ivyfell", yes, "") +
                               row("Kestrelow", "no,,,,", "Somali")),
       "--school", "CL", "--term", "Fall 2026", "--by", "IM"});
  const auto rows = desk.did({"languages", book, "--json"}).json().at("tables").at(0).at("rows");
  REQUIRE(rows.size() == 3); // who said no gets no letter
  CHECK(rows.at(0).at("asked_for") == "Spanish");
  CHECK(rows.at(0).at("children") == 2);
  CHECK(rows.at(0).at("letters") == "a draft, until a qualified person approves it");
  const auto text = desk.did({"languages", book}).out;
  CHECK(text.find("Marshallese         1  NONE: to be translated") != std::string::npos);
  CHECK(text.find("Somali") == std::string::npos);
}
