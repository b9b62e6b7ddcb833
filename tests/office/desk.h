#pragma once

#include "base/files/files.h"
#include "office/run.h"
#include "session/session.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

namespace gk::test {

using Json = nlohmann::json;

/// The rows of the table that files call so, among "tables".
inline Json rowsOf(const Json& report, const std::string& key) {
  for (const auto& table : report.at("tables"))
    if (table.at("key") == key) return table.at("rows");
  FAIL("no table " << key);
  return {};
}

struct Answer {
  int code;
  std::string out;
  std::string err;

  [[nodiscard]] Json json() const { return Json::parse(out); }
};

/// A folder, a clock that stands at Tuesday November 17, 2026, 9 o'clock, and the office command.
class Desk {
 public:
  Desk() {
    write("pass", "granite lantern 7\n");
    environment["HOME"] = (scratch / "home").string();
    environment["GROOVEKEEPER_PASSPHRASE_FILE"] = file("pass");
  }

  Answer call(const std::vector<std::string>& words, const std::string& typed = "") {
    std::istringstream in(typed);
    std::ostringstream out;
    std::ostringstream err;
    const auto look = [this](const std::string& name) -> std::optional<std::string> {
      const auto found = environment.find(name);
      if (found == environment.end()) return std::nullopt;
      return found->second;
    };
    const int code = office::run(words, {clock, random, in, out, err, look});
    return {code, out.str(), err.str()};
  }

  /// A call that must go well.
  Answer did(const std::vector<std::string>& words, const std::string& typed = "") {
    auto answer = call(words, typed);
    INFO(answer.err);
    REQUIRE(answer.code == 0);
    return answer;
  }

  /// The error code of a call that must be refused, with one sentence and nothing on `out`.
  std::string refusal(const std::vector<std::string>& words, const std::string& typed = "") {
    const auto answer = call(words, typed);
    INFO(answer.err);
    CHECK(answer.code == 2);
    CHECK(answer.out.empty());
    lastSentence = answer.err;
    const std::string head = "groovekeeper-office: ";
    REQUIRE(answer.err.starts_with(head));
    CHECK(std::count(answer.err.begin(), answer.err.end(), '\n') == 1);
    return answer.err.substr(head.size(), answer.err.find(": ", head.size()) - head.size());
  }

  [[nodiscard]] bool said(const std::string& words) const {
    return lastSentence.find(words) != std::string::npos;
  }

  [[nodiscard]] std::string file(const std::string& name) const {
    return (scratch / name).string();
  }

  std::string write(const std::string& name, const std::string& text) {
    REQUIRE(base::replaceFile(scratch / name, text));
    return file(name);
  }

  /// A logbook with a term, a school and a coordinator.
  std::string makeBook(const std::string& name = "book.gkbook") {
    const auto book = file(name);
    did({"new", book, "--program", "Larkmere County School Sealant Team", "--county",
         "Larkmere County", "--phone", "000-555-0142"});
    did({"add-term", book, "--name", "Fall 2026", "--start", "2026-09-08", "--end", "2026-12-18",
         "--holidays", "2026-10-12, 2026-11-11"});
    did({"add-school", book, "--name", "Cobble Lantern Elementary", "--code", "CL"});
    did({"add-member", book, "--name", "Ines Marrowby", "--initials", "IM", "--role",
         "coordinator"});
    return book;
  }

  Scratch scratch;
  base::ManualClock clock{base::atLocal(base::Date::of(2026, 11, 17).value(), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{7};
  std::map<std::string, std::string> environment;
  std::string lastSentence;
};

/// Two children of grade 2, one with a form that says yes and one with none.
inline const std::string twoChildren =
    "first,last,birth_date,grade,room,consent,services,signed_on,received_on,history,guardian\n"
    "Mina,Tolliver-Reed,2019-03-04,2,4,yes,all,2026-10-01,2026-10-05,yes,Ada Tolliver\n"
    "Bo,Saltmarsh,2019-05-12,2,4,,,,,,\n";

} // namespace gk::test
