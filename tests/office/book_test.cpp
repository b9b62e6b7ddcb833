#include "office/desk.h"

#include <algorithm>
#include <fstream>
#include <sqlite3.h>
#include <unistd.h>

using namespace gk;
using gk::test::Desk;
using gk::test::Json;

namespace {

const std::vector<std::string> programWords{"--program", "Larkmere County School Sealant Team",
                                            "--county",  "Larkmere County",
                                            "--phone",   "000-555-0142"};

std::vector<std::string> newBook(const std::string& file, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"new", file};
  words.insert(words.end(), programWords.begin(), programWords.end());
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

void overwrite(const std::string& file, std::streamoff at, const std::string& bytes) {
  std::fstream stream(file, std::ios::binary | std::ios::in | std::ios::out);
  stream.seekp(at);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  REQUIRE(stream.flush());
}

/// As a later version of the program would leave it: the schema version is at byte 60
/// (sqlite.org/fileformat2.html, section 1.3).
void makeNewer(const std::string& file) {
  overwrite(file, 60, std::string("\0\0\0\x63", 4));
}

} // namespace

TEST_CASE("A new logbook has its program and opens with its passphrase") {
  Desk desk;
  const auto file = desk.file("book.gkbook");
  const auto told =
      desk.did(newBook(file, {"--notation", "iso-3950", "--agreement-until", "2027-01-31",
                              "--suppress-below", "5", "--by-school", "services", "--json"}));
  CHECK(told.json().at("program") == "Larkmere County School Sealant Team");

  auto session =
      session::Session::open(file, base::LaptopId(base::Uuid{}), {desk.clock, desk.random});
  REQUIRE(session);
  CHECK(session->unlock("granite lantern 7"));
  const auto program = session->program();
  REQUIRE(program);
  CHECK(program->value.county == "Larkmere County");
  CHECK(program->value.notation == dentition::Notation::iso3950);
  CHECK(program->value.agreementUntil->iso() == "2027-01-31");
  CHECK(program->value.suppressBelow == 5);
  CHECK(program->value.bySchool == roster::BySchool::services);
}

TEST_CASE("A logbook is not made over another file nor from a bad call", "[case-112]") {
  Desk desk;
  const auto file = desk.file("book.gkbook");
  CHECK(desk.refusal(newBook(file, {"--notation", "roman"})) == "input.text");
  CHECK(desk.said("universal"));
  CHECK(desk.refusal(newBook(file, {"--agreement-until", "soon"})) == "input.date");
  CHECK(desk.refusal(newBook(file, {"--suppress-below", "4"})) == "input.number");
  CHECK(desk.refusal(newBook(file, {"--by-school", "some"})) == "input.text");
  for (const char* option : {"--program", "--county", "--phone"}) {
    auto blank = newBook(file);
    *(std::ranges::find(blank, option) + 1) = "  ";
    CHECK(desk.refusal(blank) == "input.text");
  }
  CHECK(desk.refusal(newBook(file, {"--passphrase-file", desk.write("short", "lantern\n")})) ==
        "call.malformed");
  CHECK(desk.refusal({"new", file}) == "call.malformed");
  CHECK(desk.refusal(newBook(desk.file("no/such/folder.gkbook"))) == "file.not-found");
  CHECK_FALSE(std::filesystem::exists(file));

  desk.write("book.gkbook", "a letter");
  CHECK(desk.refusal(newBook(file)) == "file.unwritable");
  CHECK(base::readFile(file).value() == "a letter");
}

TEST_CASE("The passphrase comes from a file or not at all", "[case-117]") {
  Desk desk;
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  const auto file = desk.file("book.gkbook");
  CHECK(desk.refusal(newBook(file)) == "call.malformed");
  CHECK(desk.said("--passphrase-file"));
  CHECK(desk.refusal(newBook(file, {"--passphrase-file", desk.file("none")})) == "file.not-found");
  CHECK(desk.refusal(newBook(file, {"--passphrase-file", desk.write("empty", "\n")})) ==
        "call.malformed");
  CHECK_FALSE(std::filesystem::exists(file));
  desk.did(
      newBook(file, {"--passphrase-file",
                     desk.write("windows", "\xEF\xBB\xBFgranite lantern 7\r\nof the office\r\n")}));
  auto session =
      session::Session::open(file, base::LaptopId(base::Uuid{}), {desk.clock, desk.random});
  REQUIRE(session);
  CHECK(session->unlock("granite lantern 7"));
}

TEST_CASE("This laptop's identity is made once and kept") {
  Desk desk;
  const auto kept = desk.scratch / "home" / ".config" / "groovekeeper" / "laptop-id";
  desk.makeBook();
  const auto first = base::readFile(kept).value();
  CHECK(base::Uuid::parse(first.substr(0, 36)));
  desk.makeBook("second.gkbook");
  CHECK(base::readFile(kept).value() == first);

  const auto other = desk.write("other-id", "not an identity");
  CHECK(desk.refusal({"add-school", desk.file("book.gkbook"), "--name", "N", "--code", "X",
                      "--laptop-file", other}) == "input.text");
  CHECK(base::readFile(other).value() == "not an identity");

  desk.environment.erase("HOME");
  CHECK(desk.refusal(newBook(desk.file("third.gkbook"))) == "call.malformed");
  desk.did(newBook(desk.file("third.gkbook"), {"--laptop-file", desk.file("own/laptop-id")}));
  CHECK(std::filesystem::exists(desk.file("own/laptop-id")));
}

TEST_CASE("A wrong file name makes no identity") {
  Desk desk;
  CHECK(desk.refusal({"add-school", desk.file("none.gkbook"), "--name", "N", "--code", "X"}) ==
        "file.not-found");
  CHECK_FALSE(std::filesystem::exists(desk.scratch / "home"));
}

TEST_CASE("Every verb refuses what is no logbook or one it cannot read") {
  Desk desk;
  const auto good = desk.makeBook();
  const auto letter = desk.write("letter.gkbook", std::string(5000, 'x'));
  const auto newer = desk.file("newer.gkbook");
  std::filesystem::copy_file(good, newer);
  makeNewer(newer);
  const auto before = base::readFile(newer).value();
  const auto csv = desk.write("roster.csv", test::twoChildren);

  const auto calls = [&](const std::string& file) {
    return std::vector<std::vector<std::string>>{
        {"check", file},
        {"totals", file},
        {"close-out", file},
        {"backup", file, desk.file("copy.gkbook")},
        {"merge", file, good},
        {"merge", good, file},
        {"add-school", file, "--name", "N", "--code", "X"},
        {"open-day", file, "--school", "CL", "--date", "2026-11-17", "--by", "IM"},
        {"import-roster", file, csv, "--school", "CL", "--term", "Autumn 2026", "--by", "IM"}};
  };
  for (const auto& words : calls(desk.file("none.gkbook")))
    CHECK(desk.refusal(words) == "file.not-found");
  for (const auto& words : calls(letter))
    CHECK(desk.refusal(words) == "store.not-a-logbook");
  for (const auto& words : calls(newer))
    CHECK(desk.refusal(words) == "store.newer-schema");
  CHECK(base::readFile(newer).value() == before);
  CHECK_FALSE(std::filesystem::exists(desk.file("copy.gkbook")));
}

TEST_CASE("A logbook that is open in the window is refused as in use") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto window =
      session::Session::open(book, base::LaptopId(base::Uuid{}), {desk.clock, desk.random});
  REQUIRE(window);
  CHECK(desk.refusal({"totals", book}) == "store.in-use");
  CHECK(desk.said("close it"));
  CHECK(desk.refusal({"add-school", book, "--name", "N", "--code", "X"}) == "store.in-use");
}

TEST_CASE("In a protected folder a logbook is read but not written") {
  if (::geteuid() == 0) return; // nothing is protected from the superuser
  Desk desk;
  const auto book = desk.makeBook();
  std::filesystem::permissions(book, std::filesystem::perms::owner_read);
  desk.did({"totals", book});
  desk.did({"check", book});
  CHECK(desk.refusal({"add-school", book, "--name", "N", "--code", "X"}) == "store.read-only");
}

TEST_CASE("A whole logbook is found whole and a damaged one is a finding") {
  Desk desk;
  const auto book = desk.makeBook();
  CHECK(desk.did({"check", book}).out.ends_with("whole\n"));
  CHECK(desk.did({"check", book, "--json"}).json().at("whole") == true);

  const auto size = std::filesystem::file_size(book);
  for (std::streamoff page = 4; page * 4096 < static_cast<std::streamoff>(size); page += 2)
    overwrite(book, page * 4096, std::string(64, '\x5a'));
  const auto told = desk.call({"check", book, "--json"});
  CHECK(told.code == 1);
  CHECK(told.json().at("whole") == false);
  CHECK_FALSE(told.json().at("findings").empty());
  CHECK(desk.call({"check", book}).out.find("newest backup") != std::string::npos);
  CHECK(desk.refusal({"backup", book, desk.file("copy.gkbook")}) == "store.damaged");
  CHECK_FALSE(std::filesystem::exists(desk.file("copy.gkbook")));
}

TEST_CASE("check names the student, the day and what to do of a record that was changed",
          "[case-152]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"import-roster", book, desk.write("list.csv", test::twoChildren), "--school", "CL",
            "--term", "Autumn 2026", "--by", "IM"});
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(book.c_str(), &db) == SQLITE_OK);
  sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr); // the guards stop accidents
  REQUIRE(sqlite3_exec(db, "UPDATE consent SET allowed = 0", nullptr, nullptr, nullptr) ==
          SQLITE_OK);
  sqlite3_close(db);

  const auto told = desk.call({"check", book});
  CHECK(told.code == 1);
  CHECK(told.out.find("student ") != std::string::npos);
  CHECK(told.out.find("2026-11-17 09:00: an act (") != std::string::npos);
  CHECK(told.out.find("consent") != std::string::npos);
  CHECK(told.out.find("compare it with the paper form") != std::string::npos);
  CHECK(told.out.find("Mina") == std::string::npos);
  const auto json = desk.call({"check", book, "--json"}).json();
  REQUIRE(json.at("findings").size() == 1);
  const auto& finding = json.at("findings")[0];
  CHECK(finding.at("since") == "2026-11-17");
  CHECK_FALSE(finding.at("child").get<std::string>().empty());
  CHECK(desk.refusal({"totals", book}) == "store.damaged");
}

TEST_CASE("A backup is a whole logbook and never written over a file") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto copy = desk.file("copy.gkbook");
  CHECK(desk.did({"backup", book, copy, "--json"}).json().at("backup") == copy);
  desk.did({"check", copy});
  CHECK(desk.did({"totals", copy}).out == desk.did({"totals", book}).out);
  CHECK(desk.refusal({"backup", book, copy}) == "file.unwritable");
  CHECK(desk.refusal({"backup", book, desk.file("no/copy.gkbook")}) == "file.not-found");
}

TEST_CASE("Merging takes in what the other has, once") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto other = desk.file("other.gkbook");
  desk.did({"backup", book, other});
  desk.did({"add-school", other, "--name", "Fennel Ridge Elementary", "--code", "FR",
            "--laptop-file", desk.file("other-id")});
  CHECK(desk.did({"merge", book, other, "--json"}).json().at("new_entries") == 1);
  CHECK(desk.did({"merge", book, other}).out.starts_with("Took in 0 new entries"));
  const auto terms = desk.did({"totals", book, "--json"}).json().at("terms");
  CHECK(terms.at(0).at("schools").size() == 2);
  CHECK(desk.refusal({"merge", book, desk.makeBook("stranger.gkbook")}) == "store.not-a-logbook");
}
