#include "office/desk.h"

using namespace gk;
using gk::test::Desk;
using gk::test::rowsOf;
using gk::test::twoChildren;

namespace {

std::vector<std::string> open(const std::string& book, const std::string& date,
                              std::vector<std::string> more = {}) {
  std::vector<std::string> words{"open-day", book, "--school", "CL", "--date", date, "--by", "IM"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

} // namespace

TEST_CASE("A day is opened once and not on an odd date without a reason") {
  Desk desk;
  const auto book = desk.makeBook();
  CHECK(desk.did(open(book, "2026-11-17", {"--json"})).json().at("name") == "CL November 17, 2026");
  CHECK(desk.refusal(open(book, "2026-11-17")) == "rule.day-open");
  desk.did(open(book, "2026-11-17", {"--team", "2"}));
  CHECK(desk.refusal(open(book, "2026-11-11")) == "rule.date");
  desk.did(open(book, "2026-11-11", {"--reason", "the school stays open"}));
  CHECK(desk.refusal(open(book, "2026-11-18")) == "rule.date"); // tomorrow
  CHECK(desk.refusal(open(book, "17.11.2026")) == "input.date");
  CHECK(desk.refusal(open(book, "2026-11-16", {"--team", "0"})) == "input.number");
  CHECK(desk.refusal({"open-day", book, "--school", "XX", "--date", "2026-11-16", "--by", "IM"}) ==
        "record.not-found");
}

TEST_CASE("A day outside every term needs its term and a reason") {
  Desk desk;
  const auto book = desk.makeBook();
  CHECK(desk.refusal(open(book, "2026-08-31")) == "rule.date");
  CHECK(desk.said("--term"));
  CHECK(desk.refusal(open(book, "2026-08-31", {"--term", "Fall 2026"})) == "rule.date");
  CHECK(desk.said("reason"));
  desk.did(open(book, "2026-08-31", {"--term", "Fall 2026", "--reason", "a trial day"}));
}

TEST_CASE("The sheet of an empty day reconciles and that of a day with children unseen does not") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(open(book, "2026-11-16"));
  const auto empty = desk.did({"close-out", book, "--json"}).json();
  CHECK(rowsOf(empty, "day").at(0).at("reconciles") == true);
  CHECK(rowsOf(empty, "day").at(0).at("date") == "2026-11-16");
  CHECK(rowsOf(empty, "equation").at(0).at("consented") == 0);

  desk.did({"import-roster", book, desk.write("r.csv", twoChildren), "--school", "CL", "--term",
            "Fall 2026", "--by", "IM"});
  const auto sheet = desk.call({"close-out", book, "--json"});
  CHECK(sheet.code == 1);
  CHECK(sheet.err.empty());
  CHECK(rowsOf(sheet.json(), "day").at(0).at("reconciles") == false);
  CHECK(rowsOf(sheet.json(), "blockers").at(0).at("kind") == "no outcome");
  CHECK(rowsOf(sheet.json(), "blockers").at(0).at("about") == "Mina Tolliver-Reed");
  const auto words = desk.call({"close-out", book});
  CHECK(words.code == 1);
  CHECK(words.out.find("Not ready to sign: ") != std::string::npos);
}

TEST_CASE("Without a passphrase the sheet shows numbers and with a wrong one nothing") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(open(book, "2026-11-16"));
  desk.did({"import-roster", book, desk.write("r.csv", twoChildren), "--school", "CL", "--term",
            "Fall 2026", "--by", "IM"});
  const auto wrong = desk.write("wrong", "granite\n");
  CHECK(desk.refusal({"close-out", book, "--passphrase-file", wrong}) == "vault.wrong-passphrase");
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  const auto sheet = desk.call({"close-out", book});
  CHECK(sheet.code == 1);
  CHECK(sheet.out.find("Mina") == std::string::npos);
  CHECK(sheet.out.find(roster::withCheckDigit("1001")) != std::string::npos);
}

TEST_CASE("The sheet is of the newest day unless another is named") {
  Desk desk;
  const auto book = desk.makeBook();
  CHECK(desk.refusal({"close-out", book}) == "record.not-found");
  desk.did({"add-school", book, "--name", "Fennel Ridge Elementary", "--code", "FR"});
  desk.did(open(book, "2026-11-17"));
  desk.did(open(book, "2026-11-10"));
  const auto shown = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"close-out", book, "--json"};
    words.insert(words.end(), more.begin(), more.end());
    return rowsOf(desk.did(words).json(), "day").at(0);
  };
  CHECK(shown({}).at("date") == "2026-11-17");
  CHECK(shown({"--day", "2026-11-10"}).at("date") == "2026-11-10");
  CHECK(desk.refusal({"close-out", book, "--day", "2026-11-12"}) == "record.not-found");
  CHECK(desk.refusal({"close-out", book, "--day", "yesterday"}) == "input.date");
  CHECK(desk.refusal({"close-out", book, "--school", "XX"}) == "record.not-found");

  desk.did({"open-day", book, "--school", "FR", "--date", "2026-11-17", "--by", "IM"});
  CHECK(desk.refusal({"close-out", book}) == "call.malformed");
  CHECK(desk.said("--school"));
  CHECK(shown({"--school", "FR"}).at("school") == "Fennel Ridge Elementary");
}
