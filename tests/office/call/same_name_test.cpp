#include "office/desk.h"

#include <utility>

// What two laptops entered under one name while apart: each is reached, and none is guessed.
using namespace gk;
using gk::test::Desk;

namespace {

/// A logbook and its copy, each gone on with on a laptop of its own, and merged.
struct TwoLaptops : Desk {
  std::string book = makeBook();
  std::string copy = file("copy.gkbook");
  std::string other = file("other laptop");

  TwoLaptops() { did({"backup", book, copy}); }
  void here(std::vector<std::string> words) {
    words.insert(words.begin() + 1, book);
    did(words);
    clock.advance(std::chrono::minutes(3));
  }
  void there(std::vector<std::string> words) {
    words.insert(words.begin() + 1, copy);
    words.insert(words.end(), {"--laptop-folder", other});
    did(words);
    clock.advance(std::chrono::minutes(3));
  }
  void merge() { did({"merge", book, copy, "--by", "IM"}); }
  std::vector<std::string> hours(std::vector<std::string> more) {
    std::vector<std::string> words{"enter-hours", book,       "--chairs",    "1",    "--open",
                                   "2",           "--people", "hygienist 2", "--by", "IM"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  }
};

} // namespace

TEST_CASE("A day that two laptops opened is named by its number, and the advice says it",
          "[case-358]") {
  TwoLaptops desk;
  const std::vector<std::string> open{"open-day",   "--school", "CL", "--date",
                                      "2026-11-17", "--by",     "IM"};
  desk.here(open);
  desk.there(open);
  desk.merge();
  CHECK(desk.refusal(desk.hours({"--school", "CL", "--team", "1"})) == "call.malformed");
  CHECK(desk.said("2 school days are on November 17, 2026, some of them of one school and team; "
                  "say which with --day, as 2026-11-17#1 ("));
  desk.did(desk.hours({"--day", "2026-11-17#1"}));
  desk.did(desk.hours({"--day", "2026-11-17#2", "--school", "CL"}));
  CHECK(desk.refusal(desk.hours({"--day", "2026-11-17#3"})) == "record.not-found");
  CHECK(desk.refusal(desk.hours({"--day", "2026-02-30#1"})) == "input.date");
  const auto first = desk.call({"close-out", desk.book, "--day", "2026-11-17#1", "--json"});
  CHECK(first.err.empty());
}

TEST_CASE("A school and a member that two laptops entered under one name are each reached",
          "[case-358]") {
  TwoLaptops desk;
  const std::vector<std::string> school{"add-school", "--name", "Gorse Bank", "--code",
                                        "GB",         "--by",   "IM"};
  const std::vector<std::string> member{"add-member",       "--name", "Ada Wren",
                                        "--initials",       "AW",     "--role",
                                        "dental assistant", "--by",   "IM"};
  for (const auto& words : {school, member}) {
    desk.here(words);
    desk.there(words);
  }
  desk.merge();
  const auto open = [&](const char* code) {
    return std::vector<std::string>{"open-day", desk.book,    "--school", code,
                                    "--date",   "2026-11-17", "--by",     "IM"};
  };
  CHECK(desk.refusal(open("GB")) == "call.malformed");
  CHECK(desk.said("was entered on more than one laptop; say which: GB#1 ("));
  desk.did(open("GB#1"));
  desk.did(open("GB#2"));
  const auto correct = [&](const char* who, const char* to) {
    return std::vector<std::string>{"correct-member", desk.book, "--initials", who,
                                    "--new-initials", to,        "--reason",   "entered twice",
                                    "--by",           "IM"};
  };
  CHECK(desk.refusal(correct("AW", "AX")) == "call.malformed");
  desk.did(correct("AW#2", "AX"));
  desk.did(correct("AW", "AY")); // the one that is left
  CHECK(desk.refusal(correct("AW#1", "AZ")) == "record.not-found");
}
