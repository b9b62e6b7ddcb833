#include "office/desk.h"

#include "base/text/csv.h"
#include "base/text/text.h"
#include "session/letters/letter_files.h"
#include "session/letters/letters.h"
#include "support/long_checks.h"

using namespace gk;
using namespace gk::test;

// A file from outside may hold a name anywhere, since columns shift, headers go missing and the
// wrong file is chosen. So a name is put in every cell and every header of every file that a
// command reads.

namespace {

const std::string canary = "Zqtolliver Vhreed";

/// What of it a message could repeat: whole, in small letters, folded, or one word.
bool repeats(const std::string& text) {
  const auto small = base::folded(text);
  for (const auto* part : {"zqtolliver", "vhreed"})
    if (small.find(part) != std::string::npos) return true;
  return false;
}

using Table = std::vector<std::vector<std::string>>;

std::string written(const Table& table) {
  std::string all;
  for (const auto& row : table)
    all += base::csvLine(row);
  return all;
}

/// A command, the file that it reads, and the columns that its answer shows by their labels.
struct Reads {
  std::vector<std::string> words; ///< "CSV" stands for the file
  Table table;
  std::vector<std::size_t> labels{};
};

std::vector<Reads> commands(const std::string& book) {
  return {
      {{"import-roster", book, "CSV", "--school", "CL", "--term", "Fall 2026", "--by", "IM"},
       {{"number",  "first",     "last",      "birth_date",  "grade",
         "sex",     "guardian",  "relation",  "phone",       "language",
         "consent", "services",  "signed_on", "received_on", "valid_until",
         "history", "ethnicity", "payer",     "room",        "teacher"},
        {"1043-0",     "Mina",         "Tolliver", "2019-03-04", "2",   "girl",       "Ada",
         "mother",     "000-555-0142", "English",  "yes",        "all", "2026-10-01", "2026-10-05",
         "2027-06-01", "yes",          "",         "",           "4",   "Ms. Hill"},
        {"", "Bo", "Saltmarsh", "2019-05-12", "2", "", "", "", "", "",
         "", "",   "",          "",           "",  "", "", "", "", ""}}},
      {{"import-authorizations", book, "CSV", "--dentist", "IM", "--on", "2026-11-10", "--by",
        "IM"},
       {{"number", "teeth", "note"}, {"1043-0", "3, 14", "x"}, {"1044-8", "30", "x"}}},
      {{"estimate", "retention", "CSV"},
       {{"child", "examined", "retained", "cluster"}, {"a", "4", "3", "x"}, {"b", "2", "2", "y"}}},
      {{"estimate", "attack-rate", "CSV"},
       {{"child", "exposure", "examined", "affected"},
        {"a", "1.5", "4", "1"},
        {"b", "2", "4", "0"}}},
      {{"estimate", "curve", "CSV"}, {{"left", "right", "child"}, {"3", "5", "x"}, {"2", "", "y"}}},
      {{"estimate", "compare", "CSV"},
       {{"stratum", "exposed_kept", "exposed_lost", "other_kept", "other_lost"},
        {"a", "3", "1", "2", "2"},
        {"b", "6", "1", "2", "4"}},
       {0}},
      {{"estimate", "funnel", "CSV", "--target", "0.92"},
       {{"n", "school"}, {"20", "x"}, {"9", "y"}}},
      {{"estimate", "shrink", "CSV"},
       {{"unit", "examined", "retained"}, {"A", "40", "38"}, {"B", "12", "6"}},
       {0}},
  };
}

} // namespace

TEST_CASE("No command repeats a name that stands in any cell or header of a file", "[case-256]") {
  Desk desk;
  const auto book = desk.makeBook();
  std::uint64_t walked = 0;
  std::uint64_t tried = 0;
  std::uint64_t refused = 0;
  for (const auto& reads : commands(book))
    for (const bool asJson : {false, true})
      for (std::size_t row = 0; row < reads.table.size(); ++row)
        for (std::size_t column = 0; column < reads.table[row].size(); ++column) {
          if (walked++ % oneOf(1) != 0) continue;
          auto table = reads.table;
          table[row][column] = canary;
          auto words = reads.words;
          std::ranges::replace(words, std::string("CSV"), desk.write("list.csv", written(table)));
          if (asJson) words.emplace_back("--json");
          const auto answer = desk.call(words);
          INFO(words[0] << ' ' << words[1] << ", row " << row << ", column " << column << ": "
                        << answer.err << answer.out);
          CHECK_FALSE(repeats(answer.err));
          const bool isLabel = answer.code == 0 && std::ranges::count(reads.labels, column) > 0;
          if (!isLabel) CHECK_FALSE(repeats(answer.out));
          ++tried;
          refused += answer.code == 2 ? 1 : 0;
        }
  CHECK(tried > 150 / oneOf(1));
  CHECK(refused > 100 / oneOf(1));
}

TEST_CASE("No command repeats a name of a file that is of another kind altogether", "[case-256]") {
  Desk desk;
  const auto book = desk.makeBook();
  const std::vector<std::string> texts{canary,
                                       canary + "," + canary + "\n" + canary + "," + canary + "\n",
                                       canary + ": " + canary + "\n",
                                       "{\"first\": \"" + canary + "\"}",
                                       "<first>" + canary + "</first>",
                                       "{" + canary + "}\n---\n{?" + canary + "}",
                                       "language: English\n" + canary + ":\n---\n",
                                       "language: " + canary +
                                           "\nversion: 1\napproved: no\ndraft: D\n-----\n[] Yes\n"
                                           "__ Signature\n",
                                       "\"" + canary + "\"" + canary + "\n",
                                       "\"" + canary,
                                       canary + "\xff\n"};
  for (const auto& text : texts) {
    const auto file = desk.write("other", text);
    INFO(text);
    std::vector<std::vector<std::string>> calls;
    for (auto reads : commands(book)) {
      std::ranges::replace(reads.words, std::string("CSV"), file);
      calls.push_back(reads.words);
    }
    calls.push_back({"apply", book, file});
    calls.push_back({"apply", desk.file("new.gkbook"), file, "--create"});
    calls.push_back({"check", file});
    calls.push_back({"merge", book, file});
    calls.push_back({"backup", file, desk.file("copy")});
    calls.push_back(
        {"change-passphrase", book, "--passphrase-file", file, "--new-passphrase-file", file});
    for (const auto& words : calls) {
      const auto answer = desk.call(words);
      INFO(words.front() << ": " << answer.err);
      CHECK(answer.code != 0);
      CHECK_FALSE(repeats(answer.err));
      CHECK_FALSE(repeats(answer.out));
    }
    std::filesystem::create_directories(base::Path(desk.file("letters")));
    desk.write("letters/own.txt", text);
    const auto templates = session::letterTemplates(book);
    REQUIRE_FALSE(templates);
    INFO(templates.error().detail);
    CHECK_FALSE(repeats(templates.error().detail));
    std::filesystem::remove_all(base::Path(desk.file("letters")));
    for (const auto of : {session::Worded::letter, session::Worded::consentForm}) {
      const auto replaced = session::replaceTemplate(book, of, file);
      REQUIRE_FALSE(replaced);
      INFO(replaced.error().detail);
      CHECK_FALSE(repeats(replaced.error().detail));
    }
    std::filesystem::create_directories(base::Path(desk.file("forms")));
    desk.write("forms/english.txt", text);
    const auto forms = session::consentTemplates(book);
    if (!forms) CHECK_FALSE(repeats(forms.error().detail));
    std::filesystem::remove_all(base::Path(desk.file("forms")));
  }
}

TEST_CASE("The office command asks about a clock far ahead before it writes", "[case-257]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.clock.setWall(base::atLocal(base::Date::of(2099, 11, 17).value(), std::chrono::hours(9),
                                   std::chrono::hours(-5)));
  std::vector<std::string> add{"add-school", book, "--name", "Birch Elementary",
                               "--code",     "BI", "--by",   "IM"};
  CHECK(desk.refusal(add) == "clock.ahead");
  CHECK(desk.said("from November 17, 2026. Is the date right?"));
  add.emplace_back("--clock-confirmed");
  desk.did(add);
}
