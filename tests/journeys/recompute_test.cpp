#include "journeys/told.h"
#include "office/run.h"
#include "support/outside.h"

#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace gk;
using Json = nlohmann::json;

namespace {

const std::filesystem::path scripts =
    std::filesystem::path(GK_SOURCE_DIR) / "tests/journeys/recompute";

/// What `totals --json` says of the term.
Json totalsOf(const std::filesystem::path& book) {
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-12-18"), std::chrono::hours(12),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{1};
  const std::vector<std::string> words{"totals", book.string(), "--json", "--term", "Autumn 2026"};
  const int code = office::run(words, {clock, random, in, out, err, [](const std::string&) {
                                         return std::optional<std::string>();
                                       }});
  INFO(err.str());
  REQUIRE(code == 0);
  return Json::parse(out.str()).at("terms").at(0);
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

double at(const Json& term, const std::string& name) {
  const auto dot = name.find('.');
  if (dot == std::string::npos) return term.at(name).get<double>();
  return term.at(name.substr(0, dot)).at(name.substr(dot + 1)).get<double>();
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
  CHECK(counts.size() == 16);
  for (const auto& [name, value] : counts) {
    INFO(name);
    CHECK(at(term, name) == value);
  }
  if (!test::runsOutside("R", has("Rscript"))) return;
  for (const auto* rows : {"clusters", "molars"})
    REQUIRE(std::system((sql(std::string(rows) + ".sql") + " >'" + (folder / rows).string() + "'")
                            .c_str()) == 0);
  const auto estimates =
      printed("Rscript '" + (scripts / "estimates.R").string() + "' '" +
                  (folder / "clusters").string() + "' '" + (folder / "molars").string() + "'",
              folder / "estimates.txt");
  CHECK(estimates.size() == 8);
  for (const auto& [name, value] : estimates) {
    INFO(name);
    // R's glm stops when the deviance settles to 1e-14 of itself, the rate to about 1e-9.
    const double allowed = name.starts_with("attack_rate") ? 1e-8 : 1e-14;
    CHECK(at(term, name) == Approx(value).epsilon(allowed).margin(0));
  }
}
