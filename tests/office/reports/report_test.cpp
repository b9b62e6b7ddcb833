#include "office/desk.h"
#include "reports/report.h"

#include <algorithm>
#include <array>

using namespace gk;
using gk::test::Desk;

TEST_CASE("Each report of a term comes as text, as a web page and as JSON, names sealed") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE");
  for (const auto* kind : {"term", "retention", "quality", "findings", "prevention", "follow-up",
                           "trace", "funder", "funder-annex"}) {
    CAPTURE(kind);
    CHECK_FALSE(desk.did({"report", book, kind}).out.empty());
    CHECK(desk.did({"report", book, kind, "--html"}).out.starts_with("<!DOCTYPE html>"));
    const auto json = desk.did({"report", book, kind, "--json"}).json();
    CHECK(json.at("title").get<std::string>().ends_with(": Fall 2026"));
    for (const auto& table : json.at("tables"))
      for (const auto& row : table.at("rows"))
        CHECK(row.size() == table.at("columns").size());
  }
}

TEST_CASE("A figure is a JSON number under its key, and one that is not there is null") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto json = desk.did({"report", book, "term", "--json"}).json();
  const auto& row = json.at("tables")[0].at("rows")[0];
  CHECK(row.at("consented") == 0);
  CHECK(row.at("screened_share").is_null()); // of none
  CHECK(json.at("tables")[0].at("columns")[3].at("key") == "consented");
  CHECK(json.at("tables")[0].at("columns")[3].at("kind") == "count");
}

TEST_CASE("A report takes the newest term unless one is named, and refuses what it does not know") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(
      {"add-term", book, "--name", "Fall 2025", "--start", "2025-09-02", "--end", "2025-12-19"});
  CHECK(desk.did({"report", book, "term", "--json"}).json().at("title") ==
        "Term totals: Fall 2026");
  CHECK(desk.did({"report", book, "term", "--json", "--term", "Fall 2025"}).json().at("title") ==
        "Term totals: Fall 2025");
  CHECK(desk.did({"report", book, "term", "--json", "--school", "CL"}).json().at("title") ==
        "Term totals: Fall 2026, school CL");
  CHECK(desk.refusal({"report", book, "weather"}) == "call.malformed");
  CHECK(desk.said("term, retention, quality, findings, prevention, follow-up, trace, payers, "
                  "terms-compared, cost, state, funder"));
  CHECK(desk.refusal({"report", book, "retention", "--school", "ZZ"}) == "record.not-found");
  CHECK(desk.refusal({"report", book, "prevention", "--years", "-1"}) == "input.number");
  const auto bare = desk.file("bare.gkbook");
  desk.did({"new", bare, "--program", "P", "--county", "C", "--phone", "0"});
  CHECK(desk.refusal({"report", bare, "term"}) == "record.not-found");
}

TEST_CASE(
    "A state report is of a year that the program defines, as text, page, JSON and one file") {
  Desk desk;
  const auto book = desk.makeBook();
  CHECK(desk.refusal({"report", book, "state"}) == "record.not-found");
  CHECK(desk.said("add-year"));
  desk.did({"add-year", book, "--name", "2026-27", "--kind", "school", "--start", "2026-08-01",
            "--end", "2027-07-31"});
  CHECK(desk.did({"report", book, "state"})
            .out.find("Students of this program, not a survey estimate") != std::string::npos);
  CHECK(desk.did({"report", book, "state", "--html"}).out.starts_with("<!DOCTYPE html>"));
  const auto json = desk.did({"report", book, "state", "--year", "2026-27", "--json"}).json();
  CHECK(json.at("title") == "State report: School year 2026-27");
  const auto csv = desk.did({"report", book, "state", "--csv"}).out;
  CHECK(csv.starts_with("scope,program,county,year_kind,year,from,through,counted_through,part,row,"
                        "indicator,figure,value\r\n"));
  CHECK(csv.find("\"students of this program, not a survey estimate\"") != std::string::npos);
  CHECK(desk.refusal({"report", book, "state", "--year", "1999"}) == "record.not-found");
  CHECK(desk.refusal({"report", book, "state", "--term", "Fall 2026"}) == "call.malformed");
  CHECK(desk.refusal({"report", book, "retention", "--year", "2026-27"}) == "call.malformed");
  CHECK(desk.refusal({"report", book, "term", "--csv"}) == "call.malformed");
  CHECK(desk.did({"report", book, "term", "--year", "2026-27", "--json"}).json().at("title") ==
        "Term totals: School year 2026-27");
  desk.did({"correct-year", book, "--name", "2026-27", "--kind", "fiscal", "--start", "2026-07-01",
            "--end", "2027-06-30", "--reason", "the state's own"});
  CHECK(desk.did({"report", book, "state", "--json"}).json().at("title") ==
        "State report: Fiscal year 2026-27");
  // Of its kind alone, up to the one asked for; a year without a term of the logbook has no row.
  for (const auto& [name, kind, start, end] :
       {std::array{"2024-25", "fiscal", "2024-08-01", "2025-07-31"},
        std::array{"G-26", "grant", "2026-08-01", "2027-07-31"},
        std::array{"2028-29", "fiscal", "2028-08-01", "2029-07-31"}})
    desk.did({"add-year", book, "--name", name, "--kind", kind, "--start", start, "--end", end});
  const auto years =
      desk.did({"report", book, "terms-compared", "--year", "2026-27", "--json"}).json();
  CHECK(years.at("title") == "Years side by side: Fiscal year 2026-27");
  const auto& table = years.at("tables").at(0);
  CHECK(table.at("title") == "Years side by side");
  REQUIRE(table.at("rows").size() == 1);
  CHECK(table.at("rows").at(0).at("year").get<std::string>().starts_with("Fiscal year 2026-27"));
  CHECK(desk.did({"report", book, "terms-compared", "--json"}).json().at("title") ==
        "Terms side by side: Fall 2026");
  // And of one school, which is said where the report is named and in the table.
  const auto ofSchool =
      desk.did({"report", book, "terms-compared", "--school", "CL", "--json"}).json();
  CHECK(ofSchool.at("title") == "Terms side by side: Fall 2026, school CL");
  CHECK(ofSchool.at("tables").size() == 1);
  CHECK(ofSchool.at("tables").at(0).at("title") == "Terms side by side: Cobble Lantern Elementary");
  CHECK(
      desk.did({"report", book, "terms-compared", "--year", "2026-27", "--school", "CL", "--json"})
          .json()
          .at("title") == "Years side by side: Fiscal year 2026-27, school CL");
  CHECK(desk.refusal({"add-year", book, "--name", "2027-28", "--kind", "lunar", "--start",
                      "2027-08-01", "--end", "2028-07-31"}) == "input.text");
}

TEST_CASE("Prevention under a what-if says why there is no estimate") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto out =
      desk.did({"report", book, "prevention", "--attack-rate", "0.07", "--retention", "0.92"}).out;
  CHECK(out.find("no permanent molar was sealed") != std::string::npos);
}

TEST_CASE("A lot or a light that no one knows cannot be traced", "[case-53]") {
  Desk desk;
  const auto book = desk.makeBook();
  CHECK(desk.refusal({"report", book, "trace", "--lot", "ZZ-0"}) == "record.not-found");
  CHECK(desk.refusal({"report", book, "trace", "--light", "L-99"}) == "record.not-found");
}

TEST_CASE("A report that is issued again says so, and after a correction what differs",
          "[case-72]") {
  Desk desk;
  const auto book = desk.makeBook();
  const auto version = [&](std::vector<std::string> words) {
    words.insert(words.end(), {"--json", "--by", "IM"});
    return desk.did(words).json().at("version").get<std::string>();
  };
  CHECK(version({"report", book, "funder"}).starts_with("Draft: not recorded as issued"));
  CHECK(version({"report", book, "findings"}).empty());
  CHECK(version({"report", book, "funder", "--issue"}) == "Version 1");
  CHECK(version({"report", book, "funder", "--issue"}) ==
        "Version 1 of November 17, 2026, printed again");
  desk.did({"add-enrollment", book, "--school", "CL", "--term", "Fall 2026", "--grade", "2",
            "--students", "142"});
  const auto second = version({"report", book, "funder", "--issue"});
  CHECK(second.starts_with("Version 2, differs from version 1 of November 17, 2026 by "));
  INFO(second);
  CHECK(second.find("Participation, Consented, of enrolled, Of: unknown -> 142") !=
        std::string::npos);
  const auto page = desk.did({"report", book, "funder", "--issue", "--html", "--by", "IM"}).out;
  CHECK(page.find("<p>Version 2 of November 17, 2026, printed again</p>") != std::string::npos);
  CHECK(desk.refusal({"report", book, "findings", "--merge", "auto"}) == "call.malformed");
}

TEST_CASE("Grades of the annex are one row as they are named") {
  Desk desk;
  const auto book = desk.makeBook();
  for (const auto* grades : {"auto", "each", "K", "K-1, 2-3,4-8"})
    desk.did({"report", book, "funder-annex", "--grades", grades});
  for (const auto* grades : {"", "K-2,2-3", "3-1", "1-2-3", "nine", "K-"}) {
    CAPTURE(grades);
    CHECK(desk.refusal({"report", book, "funder-annex", "--grades", grades}) == "call.malformed");
  }
  CHECK(desk.refusal({"report", book, "findings", "--grades", "auto"}) == "call.malformed");
}

TEST_CASE("A report refuses each option that it would leave out of account") {
  Desk desk;
  const auto book = desk.makeBook();
  using enum reports::ReportKind;
  struct Used {
    std::vector<std::string> words;
    std::vector<reports::ReportKind> by;
  };
  const std::vector<Used> all{{{"--school", "CL"}, {term, retention, terms, schoolPage}},
                              {{"--csv"}, {state}},
                              {{"--lot", "RF-2609"}, {trace}},
                              {{"--light", "L-1"}, {trace}},
                              {{"--material", "Reef"}, {trace}},
                              {{"--merge", "auto"}, {funder, funderAnnex, schoolPage}},
                              {{"--grades", "auto"}, {funder, funderAnnex}},
                              {{"--attack-rate", ".07"}, {prevention}},
                              {{"--retention", ".9"}, {prevention}},
                              {{"--first-molars"}, {prevention}},
                              {{"--years", "5"}, {prevention}},
                              {{"--program-cost", "100"}, {prevention}},
                              {{"--cost-per-cavity", "100"}, {prevention}}};
  for (const auto& [words, by] : all)
    for (std::size_t i = 0; i < base::enumCount<reports::ReportKind>; ++i) {
      const auto kind = static_cast<reports::ReportKind>(i);
      std::vector<std::string> call{"report", book, std::string(base::nameOf(kind))};
      call.insert(call.end(), words.begin(), words.end());
      CAPTURE(call[2], words.front());
      if (words.front() == "--school")
        CHECK(reports::partsBy(kind, reports::Factor::school) ==
              (std::ranges::find(by, kind) != by.end()));
      if (std::ranges::find(by, kind) != by.end()) continue;
      CHECK(desk.refusal(call) == "call.malformed");
      CHECK(desk.said(words.front() + " goes with "));
    }
}
