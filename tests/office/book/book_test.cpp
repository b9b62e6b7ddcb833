#include "office/desk.h"

#include <algorithm>
#include <fstream>
#include <set>
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

TEST_CASE("A laptop writes on with the hand that it remembers outside of the logbook",
          "[case-240]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto hands = [&] {
    std::set<base::LaptopId> all;
    auto session = session::Session::open(book, base::LaptopId(base::Uuid{}),
                                          {desk.clock, desk.random}, store::Access::readOnly);
    REQUIRE(session);
    const auto schools = session->schools();
    REQUIRE(schools);
    for (const auto& school : *schools)
      all.insert(school.stamp.laptop);
    return all.size();
  };
  const auto add = [&](const std::string& code, const std::string& folder) {
    return desk
        .did({"add-school", book, "--name", "School " + code, "--code", code, "--laptop-folder",
              desk.file(folder)})
        .err;
  };
  const auto home = desk.scratch / "home" / ".config" / "groovekeeper" / "hands";
  CHECK(std::distance(std::filesystem::directory_iterator(home), {}) == 2); // one book, two files
  const auto before = hands();
  CHECK(add("A1", "own").empty());
  CHECK(add("A2", "own").empty());
  CHECK(hands() == before + 1);
  CHECK(add("B1", "other").empty()); // carried to another computer: a hand of its own
  CHECK(hands() == before + 2);
  std::filesystem::remove_all(desk.file("own")); // the memory is lost: nothing breaks
  CHECK(add("A3", "own").empty());
  CHECK(hands() == before + 3);
  desk.environment.erase("HOME");
  CHECK(desk.refusal(newBook(desk.file("third.gkbook"))) == "call.malformed");
}

TEST_CASE("Who goes on in a restored backup is told what is not in it", "[case-240]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto add = [&](const std::string& code) {
    return desk.did({"add-school", book, "--name", "School " + code, "--code", code}).err;
  };
  add("AA");
  desk.did({"backup", book, desk.file("old.gkbook")});
  add("BB");
  desk.did({"backup", book, desk.file("later.gkbook")});
  std::filesystem::copy_file(desk.file("old.gkbook"), book,
                             std::filesystem::copy_options::overwrite_existing);
  const auto told = add("CC");
  CHECK(told.find("This logbook is an earlier copy. What this laptop recorded after") !=
        std::string::npos);
  CHECK(add("DD").empty()); // said once
  CHECK(desk.did({"merge", book, desk.file("later.gkbook"), "--json"}).json().at("new_entries") ==
        1);
  CHECK(desk.did({"merge", desk.file("later.gkbook"), book, "--json"}).json().at("new_entries") ==
        3); // with the one that says that there was a merge
}

TEST_CASE("A wrong file name leaves nothing behind") {
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
        {"import-roster", file, csv, "--school", "CL", "--term", "Fall 2026", "--by", "IM"}};
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
  CHECK(desk.did({"check", book}).out.ends_with("no damage found\n"));
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
            "--term", "Fall 2026", "--by", "IM"});
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

TEST_CASE("What a verb prints holds nothing that a terminal obeys, whatever a file is called",
          "[case-384]") {
  Desk desk;
  const std::string sly("a\x1b[31mRED\x07\xc2\x9b.gkbook");
  const auto file = desk.file(sly);
  const auto isPlain = [](const std::string& out) {
    return out.find_first_of("\x1b\x07") == std::string::npos && out.find("RED") != out.npos &&
           out.find("\xc2\x9b") == out.npos;
  };
  CHECK(isPlain(desk.did(newBook(file)).out));
  CHECK(isPlain(desk.did({"check", file}).out));
  CHECK(isPlain(desk.did({"backup", file, desk.file("b" + sly)}).out));
  CHECK(isPlain(desk.did({"merge", file, desk.file("b" + sly)}).out));
}

TEST_CASE("A backup never takes the place of a link to nothing") {
  Desk desk;
  const auto file = desk.makeBook();
  const auto link = desk.file("link.gkbook");
  std::filesystem::create_symlink(desk.file("nothing"), link);
  CHECK(desk.refusal({"backup", file, link}) == "file.unwritable");
  CHECK(std::filesystem::is_symlink(link));
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
            "--laptop-folder", desk.file("other-laptop")});
  CHECK(desk.did({"merge", book, other, "--json"}).json().at("new_entries") == 1);
  CHECK(desk.did({"merge", book, other}).out.starts_with("Imported 0 new entries"));
  const auto terms = desk.did({"totals", book, "--json"}).json().at("terms");
  CHECK(gk::test::rowsOf(terms.at(0), "participation").size() == 3); // with the total
  CHECK(desk.refusal({"merge", book, desk.makeBook("stranger.gkbook")}) == "store.not-a-logbook");
}

TEST_CASE("A student is erased in two steps, and the second names the number of rows",
          "[case-245]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"import-roster", book, desk.write("list.csv", test::twoChildren), "--school", "CL",
            "--term", "Fall 2026", "--by", "IM"});
  desk.did({"backup", book, desk.file("before.gkbook")});
  const auto number = roster::withCheckDigit("1001");
  const auto erase = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"erase-student",
                                   book,
                                   number,
                                   "--request",
                                   "the mother, letter of 12 November 2026",
                                   "--authority",
                                   "state records law",
                                   "--reason",
                                   "asked for",
                                   "--by",
                                   "IM"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  const auto shown = desk.did(erase({"--json"})).json();
  CHECK(shown.at("erased") == false);
  const auto rows = shown.at("rows").get<int>();
  CHECK(rows == 3); // the card, the name and the form
  CHECK(desk.did(erase({})).out.find("--confirm-rows 3") != std::string::npos);
  CHECK(desk.refusal(erase({"--confirm-rows", "4"})) == "record.changed");
  CHECK(desk.did({"check", book, "--json"}).json().at("erasures").empty());
  const auto done = desk.did(erase({"--confirm-rows", "3"})).out;
  CHECK(done.starts_with("Erased 3 rows of student " + number));
  CHECK(desk.refusal(erase({})) == "record.not-found");

  const auto checked = desk.did({"check", book}).out;
  CHECK(checked.find(": no damage found\nStudent " + number +
                     ": erased on November 17, 2026 by IM at the request of the mother, letter of "
                     "12 November 2026, 3 rows (state records law; asked for), by name only.") !=
        std::string::npos);
  // A backup that still holds the student loses it when it takes the erasure in, once that is said.
  const auto before = desk.file("before.gkbook");
  const auto merge = [&](std::vector<std::string> more) {
    // On another laptop, which remembers nothing of this logbook.
    std::vector<std::string> words{"merge", before, book, "--laptop-folder",
                                   desk.file("elsewhere")};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  CHECK(desk.refusal(merge({})) == "store.erases");
  CHECK(desk.refusal(merge({"--copied"})) == "store.erases");
  CHECK(desk.did({"check", before, "--json"}).json().at("erasures").empty());
  CHECK(desk.refusal(merge({"--erase-listed", "4", "--by", "IM"})) == "store.erases");
  CHECK(desk.refusal(merge({"--erase-listed", "3"})) == "rule.credential");
  CHECK(desk.did(merge({"--erase-listed", "3", "--by", "IM"}))
            .out.find("3 entries of erased students") != std::string::npos);
  CHECK(desk.did({"check", before, "--json"}).json().at("erasures").size() == 1);
  // The entry that says who merged.
  CHECK(desk.did({"merge", book, before, "--json"}).json().at("new_entries") == 1);
  CHECK(desk.did({"merge", before, book, "--json"}).json().at("new_entries") == 0);
}
