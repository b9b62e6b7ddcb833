#include "journeys/told.h"
#include "office/run.h"
#include "reports/funder/state_indicators.h"
#include "reports/services/cost_report.h"
#include "session/reporting/year_records.h"
#include "support/outside.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

using namespace gk;
using Json = nlohmann::json;

namespace {

const std::filesystem::path scripts =
    std::filesystem::path(GK_SOURCE_DIR) / "tests/journeys/recompute";

/// What the office program prints as JSON.
Json printedJson(const std::vector<std::string>& words) {
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-12-18"), std::chrono::hours(12),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{1};
  const int code = office::run(words, {clock, random, in, out, err, [](const std::string&) {
                                         return std::optional<std::string>();
                                       }});
  INFO(err.str());
  REQUIRE(code == 0);
  return Json::parse(out.str());
}

/// What `totals --json` says of the term.
Json totalsOf(const std::filesystem::path& book) {
  return printedJson({"totals", book.string(), "--json", "--term", "Fall 2026"}).at("terms").at(0);
}

bool has(const std::string& program) {
  return std::system(("command -v " + program + " >/dev/null 2>&1").c_str()) == 0;
}

/// "name value" lines that a shell command prints.
std::map<std::string, double> printed(const std::string& command, const std::filesystem::path& to) {
  REQUIRE(std::system((command + " >'" + to.string() + "'").c_str()) == 0);
  std::map<std::string, double> values;
  std::istringstream lines(test::must(base::readFile(to)));
  std::string name;
  double value = 0;
  while (lines >> name >> value)
    values[name] = value;
  return values;
}

/// Of the last row of the first table that has the figure: the total, or the term itself.
const Json& totalOf(const Json& term, const std::string& key) {
  for (const auto& table : term.at("tables"))
    if (const auto& rows = table.at("rows"); !rows.empty() && rows.back().contains(key))
      return rows.back().at(key);
  throw std::out_of_range(key);
}

double at(const Json& term, const std::string& name) {
  const std::map<std::string, std::pair<std::string, std::string>> within{
      {"retention.children_found", {"children_found", "count"}},
      {"retention.estimate", {"whole_share", ""}},
      {"retention.low", {"whole_range", "low"}},
      {"retention.high", {"whole_range", "high"}},
      {"attack_rate.molars", {"attack_rate_molars", ""}},
      {"attack_rate.estimate", {"attack_rate", "estimate"}},
      {"attack_rate.low", {"attack_rate", "low"}},
      {"attack_rate.high", {"attack_rate", "high"}},
      {"averted.estimate", {"averted", "estimate"}},
      {"averted.low", {"averted", "low"}},
      {"averted.high", {"averted", "high"}}};
  const auto found = within.find(name);
  if (found == within.end()) return totalOf(term, name.substr(name.find('.') + 1)).get<double>();
  const auto& cell = totalOf(term, found->second.first);
  return (found->second.second.empty() ? cell : cell.at(found->second.second)).get<double>();
}

} // namespace

TEST_CASE("The demo's totals are what plain SQL and R make of the same rows") {
  REQUIRE(has("sqlite3")); // of the packages that building needs
  const test::Told told(demo::Until::closed);
  const test::Scratch folder;
  const auto book = folder / "copy.gkbook"; // the book itself is open
  std::filesystem::copy_file(told.folder() / "demo.gkbook", book);
  const auto term = totalsOf(book);
  const auto sql = [&](const std::string& script) {
    return "sqlite3 '" + book.string() + "' <'" + (scripts / script).string() + "'";
  };
  const auto counts = printed(sql("counts.sql"), folder / "counts.txt");
  CHECK(counts.size() == 17);
  for (const auto& [name, value] : counts) {
    if (name == "children_with_a_record") continue; // of the export
    INFO(name);
    CHECK(at(term, name) == value);
  }
  if (!test::runsOutside("R", has("Rscript"))) return;
  for (const auto* rows : {"clusters", "molars"})
    REQUIRE(std::system((sql(std::string(rows) + ".sql") + " >'" + (folder / rows).string() + "'")
                            .c_str()) == 0);
  const auto estimates =
      printed("Rscript '" + (scripts / "estimates.R").string() + "' '" +
                  (folder / "clusters").string() + "' '" + (folder / "molars").string() + "' " +
                  std::to_string(counts.at("first_molars") + counts.at("second_molars")),
              folder / "estimates.txt");
  CHECK(estimates.size() == 11);
  for (const auto& [name, value] : estimates) {
    INFO(name);
    // R's glm stops when the deviance settles to 1e-14 of itself, the rate to about 1e-9.
    const double allowed = name.starts_with("retention") ? 1e-14
                           : name == "averted.low" || name == "averted.high"
                               ? 1e-6 // its slopes are differences
                               : 1e-8;
    CHECK(at(term, name) == Approx(value).epsilon(allowed).margin(0));
  }
}

namespace {

/// A term's de-identified export counted as who gets it would, by what docs/formats.md and the
/// schema say alone.
std::map<std::string, int> countsOf(const Json& extract) {
  std::map<std::string, Json> days;
  for (const auto& day : extract.at("days"))
    if (!day.at("cancelled")) days[day.at("id")] = day;
  const auto on = [](const Json& date) { return *base::Date::parse(date.get<std::string>()); };
  const auto start = on(extract.at("term").at("start"));
  const auto end = on(extract.at("term").at("end"));
  std::map<std::string, int> out;
  for (const auto& child : extract.at("children")) {
    out["screened"] += child.at("screenings").empty() ? 0 : 1;
    out["varnish"] += child.at("varnishes").empty() ? 0 : 1;
    std::vector<Json> sealants;
    for (const auto& one : child.at("placements"))
      if (one.at("attempt") == "complete" && one.at("type") != "repair" &&
          one.at("type") != "interim")
        sealants.push_back(one);
    std::set<int> teeth;
    int found = 0;
    for (const auto& one : sealants) {
      const int tooth = one.at("tooth");
      if (days.contains(one.at("day"))) teeth.insert(tooth);
      const auto placed = on(one.at("date"));
      const bool isFirst =
          one.at("type") != "reseal" && std::ranges::none_of(sealants, [&](const Json& other) {
            return other.at("tooth") == tooth && on(other.at("date")) < placed;
          });
      if (!isFirst) continue;
      const auto opens = placed.plusMonths(9);
      const auto shuts = placed.plusMonths(15);
      if (opens > end || shuts < start) continue;
      found += std::ranges::any_of(child.at("checks"), [&](const Json& check) {
        if (check.at("placement") != one.at("id") || check.at("kind") != "long-term") return false;
        const auto at = on(days.at(check.at("day")).at("date"));
        return opens <= at && at <= shuts;
      });
    }
    out["sealed"] += teeth.empty() ? 0 : 1;
    for (const int tooth : teeth) {
      out["first_molars"] += tooth % 10 == 6 && tooth < 50 ? 1 : 0;
      out["second_molars"] += tooth % 10 == 7 && tooth < 50 ? 1 : 0;
    }
    out["retention.examined"] += found;
    out["retention.children_found"] += found > 0 ? 1 : 0;
  }
  return out;
}

} // namespace

TEST_CASE("Who counts a de-identified export of a term finds what plain SQL makes of the rows",
          "[case-413]") {
  REQUIRE(has("sqlite3"));
  const test::Told told(demo::Until::closed);
  const test::Scratch folder;
  const auto book = folder / "copy.gkbook";
  std::filesystem::copy_file(told.folder() / "demo.gkbook", book);
  const auto extract =
      printedJson({"export", book.string(), "--format", "json", "--term", "Fall 2026"});
  const auto counted =
      printed("sqlite3 '" + book.string() + "' <'" + (scripts / "counts.sql").string() + "'",
              folder / "counts.txt");
  const auto ours = countsOf(extract);
  CHECK(ours.size() == 7);
  for (const auto& [name, value] : ours) {
    INFO(name);
    CHECK(value == counted.at(name));
    CHECK(value > 0);
  }
  // Those left out answered no: of no child who was screened, sealed or checked is a row missing,
  // as the counts above are of all.
  CHECK(extract.at("children_left_out") > 0);
  CHECK(static_cast<double>(extract.at("children").size()) +
            extract.at("children_left_out").get<double>() ==
        counted.at("children_with_a_record"));
}

TEST_CASE("The indicators of a span of dates over two terms are what plain SQL makes of the rows") {
  REQUIRE(has("sqlite3"));
  test::Told told(demo::Until::closed);
  const test::Scratch folder;
  const auto book = folder / "copy.gkbook";
  std::filesystem::copy_file(told.folder() / "demo.gkbook", book);
  // The second cuts both terms: some children are seen in each.
  for (const auto& [from, through] :
       {std::pair("2026-08-01", "2027-07-31"), std::pair("2025-10-08", "2026-10-14")}) {
    INFO(from);
    const roster::ProgramYear year{"span", roster::YearKind::grant, *base::Date::parse(from),
                                   *base::Date::parse(through)};
    const auto read =
        test::must(session::readYear(told.book(), year, *base::Date::parse("2027-08-01")));
    std::map<std::string, double> ours;
    for (auto row : reports::indicatorRows(reports::seenChildren(read.records))) {
      std::ranges::replace(row.group, ' ', '-');
      using reports::Indicator;
      const auto put = [&](const char* name, int value) { ours[row.group + "." + name] = value; };
      put("screened", row.screened);
      put("untreated", row.at(Indicator::untreated).with);
      put("untreated-known", row.at(Indicator::untreated).known);
      put("treated", row.at(Indicator::treated).with);
      put("treated-known", row.at(Indicator::treated).known);
      put("experience", row.at(Indicator::experience).with);
      put("experience-known", row.at(Indicator::experience).known);
      put("sealants", row.at(Indicator::sealants).with);
      put("sealants-known", row.at(Indicator::sealants).known);
      put("none", row.at(Indicator::noProblem).with);
      put("early", row.at(Indicator::early).with);
      put("urgent", row.at(Indicator::urgent).with);
    }
    auto sql = test::must(base::readFile(scripts / "indicators.sql"));
    for (const auto& [name, date] : {std::pair("@from", from), std::pair("@through", through)})
      for (auto at = sql.find(name); at != std::string::npos; at = sql.find(name))
        sql.replace(at, std::string_view(name).size(), "'" + std::string(date) + "'");
    test::must(base::replaceFile(folder / "indicators.sql", sql));
    const auto counted =
        printed("sqlite3 '" + book.string() + "' <'" + (folder / "indicators.sql").string() + "'",
                folder / "indicators.txt");
    CHECK(counted.size() >= 22);
    CHECK(ours == counted);
    CHECK(ours.at("All-grades.screened") > 30);
  }
}

TEST_CASE("The demo's costs are what plain SQL makes of the same rows") {
  REQUIRE(has("sqlite3"));
  test::Told told(demo::Until::closed);
  const test::Scratch folder;
  const auto book = folder / "copy.gkbook";
  std::filesystem::copy_file(told.folder() / "demo.gkbook", book);
  const auto costs = reports::costsOf(told.term(1)).back();
  const auto counted =
      printed("sqlite3 '" + book.string() + "' <'" + (scripts / "costs.sql").string() + "'",
              folder / "costs.txt");
  CHECK(counted.at("days") == costs.daysCosted);
  CHECK(counted.at("cents") == static_cast<double>(costs.total()));
  CHECK(counted.at("seen") == costs.seen);
  CHECK(counted.at("teeth") == costs.teeth());
}
