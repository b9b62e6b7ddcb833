#include "office/desk.h"

using namespace gk;
using gk::test::Desk;
using gk::test::Json;
using gk::test::rowsOf;
using gk::test::twoChildren;

namespace {

const std::vector<std::string> retentionKeys{
    "placed", "due",  "children_found", "examined",    "assessable",   "whole",
    "part",   "lost", "whole_share",    "whole_range", "design_effect"};

} // namespace

TEST_CASE("Totals have their keys, with null where there is not enough data") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.environment.erase("GROOVEKEEPER_PASSPHRASE_FILE"); // names are not needed
  const auto terms = desk.did({"totals", book, "--json"}).json().at("terms");
  REQUIRE(terms.size() == 1);
  const auto& term = terms[0];
  CHECK(term.at("name") == "Fall 2026");
  const auto facts = rowsOf(term, "term").at(0);
  for (const auto& key : {"attack_rate", "averted"})
    CHECK(facts.at(key).is_null());
  CHECK(facts.at("averted_why_not").get<std::string>().starts_with("not enough data"));
  const auto schools = rowsOf(term, "participation");
  REQUIRE(schools.size() == 2); // the school and the total
  CHECK(schools[0].at("school") == "Cobble Lantern Elementary");
  for (const auto& where : schools) {
    CHECK(where.at("consented") == 0);
    CHECK(where.at("screened") == 0);
    CHECK(where.at("enrolled").is_null());
  }
  CHECK(rowsOf(term, "services").back().at("first_molars") == 0);
  const auto retention = rowsOf(term, "retention");
  for (const auto& where : retention)
    for (const auto& key : retentionKeys)
      CHECK(where.contains(key));
  CHECK(retention.back().at("whole_range").is_null());
}

TEST_CASE("Totals speak of one term when it is named and of none when there is none") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did(
      {"add-term", book, "--name", "Fall 2025", "--start", "2025-09-02", "--end", "2025-12-19"});
  CHECK(desk.did({"totals", book, "--json"}).json().at("terms").size() == 2);
  const auto one = desk.did({"totals", book, "--json", "--term", "Fall 2025"}).json();
  REQUIRE(one.at("terms").size() == 1);
  CHECK(one.at("terms")[0].at("name") == "Fall 2025");
  CHECK(one.at("terms")[0].at("as_of") == "2025-12-19");
  CHECK(desk.did({"totals", book, "--term", "Fall 2025"}).out.find("Fall 2025") !=
        std::string::npos);
  CHECK(desk.refusal({"totals", book, "--term", "Winter"}) == "record.not-found");
  CHECK(desk.said("Fall 2025"));

  const auto bare = desk.file("bare.gkbook");
  desk.did({"new", bare, "--program", "P", "--county", "C", "--phone", "0"});
  CHECK(desk.did({"totals", bare, "--json"}).json() == Json{{"terms", Json::array()}});
  CHECK(desk.did({"totals", bare}).out.starts_with("This logbook has no term"));
}

TEST_CASE("Nothing after the named day counts") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"open-day", book, "--school", "CL", "--date", "2026-11-16", "--by", "IM"});
  const auto days = [&](const std::string& asOf) {
    const auto json = desk.did({"totals", book, "--json", "--as-of", asOf}).json();
    return rowsOf(json.at("terms")[0], "participation").back().at("days");
  };
  CHECK(days("2026-11-15") == 0);
  CHECK(days("2026-11-16") == 1);
  CHECK(desk.refusal({"totals", book, "--as-of", "2026-11-31"}) == "input.date");
}

TEST_CASE("Two schools of one name keep their own totals") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-school", book, "--name", "Cobble Lantern Elementary", "--code", "CL2"});
  desk.did({"import-roster", book, desk.write("r.csv", twoChildren), "--school", "CL2", "--term",
            "Fall 2026", "--by", "IM"});
  const auto totals = desk.did({"totals", book, "--json"}).json();
  const auto rows = rowsOf(totals.at("terms")[0], "participation");
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].at("school") == "Cobble Lantern Elementary (CL)");
  CHECK(rows[0].at("consented") == 0);
  CHECK(rows[1].at("consented") == 1);
}

TEST_CASE("Published totals name their threshold, and one under five is refused") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"import-roster", book, desk.write("r.csv", twoChildren), "--school", "CL", "--term",
            "Fall 2026", "--by", "IM"});
  const auto published = desk.did({"totals", book, "--publish", "--json"}).json();
  CHECK(published.at("suppressed_under") == 10);
  const auto& tables = published.at("terms")[0].at("tables");
  CHECK(tables[0].at("columns")[3].at("heading") == "Consented");
  CHECK(tables[0].at("rows")[0].at("consented") == "fewer than 10");
  const auto seven = desk.did({"totals", book, "--publish", "--suppress-under", "7"}).out;
  CHECK(seven.find("fewer than 7") != std::string::npos);
  CHECK(desk.refusal({"totals", book, "--publish", "--suppress-under", "4"}) == "input.number");
  CHECK(desk.refusal({"totals", book, "--suppress-under", "10"}) == "call.malformed");
  CHECK(desk.refusal({"totals", book, "--publish", "--published-on", "soon"}) == "input.date");
}

TEST_CASE("Published totals are checked against what the logbook knows went out",
          "[case-72][case-83]") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"import-roster", book, desk.write("r.csv", twoChildren), "--school", "CL", "--term",
            "Fall 2026", "--by", "IM"});
  const auto draft = desk.did({"totals", book, "--publish"});
  CHECK(draft.out.starts_with("Draft: not recorded as issued"));
  const auto first = desk.did({"totals", book, "--publish", "--issue", "--json", "--by", "IM"});
  CHECK(first.json().at("terms")[0].at("version") == "Version 1");
  const auto again = desk.did({"totals", book, "--publish", "--issue", "--json", "--by", "IM"});
  CHECK(again.json().at("terms")[0].at("version") ==
        "Version 1 of November 17, 2026, printed again");
  CHECK(again.json().at("terms")[0].at("tables") == first.json().at("terms")[0].at("tables"));
  CHECK(desk.refusal({"totals", book, "--issue"}) == "call.malformed");
}

TEST_CASE("Schools are published as one row when they are named by code, each once") {
  Desk desk;
  const auto book = desk.makeBook();
  desk.did({"add-school", book, "--name", "Dunlin Marsh School (K-8)", "--code", "DM"});
  desk.did({"add-school", book, "--name", "Fennel Ridge Elementary", "--code", "FR"});
  const auto json = desk.did({"totals", book, "--publish", "--merge", "DM + FR", "--json"}).json();
  const auto& rows = json.at("terms")[0].at("tables")[0].at("rows");
  REQUIRE(rows.size() == 3);
  CHECK(rows[1].at("school") == "Dunlin Marsh School (K-8) + Fennel Ridge Elementary");
  CHECK(desk.refusal({"totals", book, "--publish", "--merge", "DM+DM"}) == "call.malformed");
  CHECK(desk.refusal({"totals", book, "--publish", "--merge", "DM"}) == "call.malformed");
  CHECK(desk.refusal({"totals", book, "--publish", "--merge", "DM+ZZ"}) == "record.not-found");
  CHECK(desk.refusal({"totals", book, "--merge", "DM+FR"}) == "call.malformed");
}

TEST_CASE("Tables marked not to be published cannot be issued, nor when they are asked for again",
          "[case-83]") {
  Desk desk;
  const auto book = desk.makeBook();
  // Seven yes, six no: with five as the threshold all is shown, and the six can be worked out.
  std::string rows = twoChildren.substr(0, twoChildren.find('\n') + 1);
  for (int i = 0; i < 13; ++i)
    rows += "Child" + std::to_string(i) + ",Saltmarsh,2019-03-" + std::to_string(10 + i) + ",2,4," +
            (i < 7 ? "yes,all" : "no,") + ",2026-10-01,2026-10-05," + (i < 7 ? "yes" : "") +
            ",Ada Saltmarsh\n";
  desk.did({"import-roster", book, desk.write("r.csv", rows), "--school", "CL", "--term",
            "Fall 2026", "--by", "IM"});
  const std::vector<std::string> publish{"totals", book, "--publish", "--by", "IM"};
  const auto with = [&](std::vector<std::string> more) {
    more.insert(more.begin(), publish.begin(), publish.end());
    return more;
  };
  const auto first = desk.did(with({"--suppress-under", "5", "--issue"})).out;
  CHECK(first.find("NOT TO BE PUBLISHED") == std::string::npos);
  for (int again = 0; again < 2; ++again) {
    CHECK(desk.refusal(with({"--issue"})) == "rule.small-counts");
    CHECK(desk.said("nothing was issued and nothing is lost"));
    const auto draft = desk.did(publish).out;
    CHECK(draft.starts_with("Draft: not recorded as issued"));
    CHECK(draft.find("NOT TO BE PUBLISHED") != std::string::npos);
  }
  // Told to have gone out past the logbook, the same counts are not fit to be issued either.
  CHECK(desk.refusal(with({"--issue", "--published-on", "2026-11-17"})) == "rule.small-counts");
  CHECK(desk.did(with({"--suppress-under", "5", "--issue"})).out.starts_with("Version 1 of "));
}
