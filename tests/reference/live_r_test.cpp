#include "base/files/files.h"
#include "reference/reference.h"
#include "support/outside.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <sstream>

using namespace gk;
using namespace gk::reference;

namespace {

const std::filesystem::path here = std::filesystem::path(GK_SOURCE_DIR) / "tests/reference";

/// Every comparison. To add one: a row, a script, its data and R's recorded answer.
const std::vector<Script> scripts{
    {"retention.R", "retention_weil.csv", retentionByChild},
    {"retention.R", "retention_schools.csv", retentionByChild},
    {"few_schools.R", "few_schools_six.csv", fewSchools},
    {"few_schools.R", "few_schools_even.csv", fewSchools},
    {"few_schools.R", "few_schools_three.csv", fewSchools},
    {"few_schools.R", "few_schools_apart.csv", fewSchools},
    {"compare_rabbits.R", "compare_rabbits.csv", compareRabbits},
    {"compare_isolation.R", "compare_isolation.csv", compareIsolation},
    {"compare_holm.R", "compare_holm.csv", compareHolm},
    {"shrinkage_schools.R", "shrinkage_schools.csv", shrinkageSchools},
    {"screening_schools.R", "screening_schools.csv", screeningSchools},
    {"survival_curve.R", "survival_cosmesis.csv", survivalMasses},
    {"survival_curve.R", "survival_teeth.csv", survivalMasses},
    {"attack_rate.R", "attack_rate.csv", attackRates},
    {"averted.R", "averted.csv", avertedBounds},
};

std::string textOf(const std::filesystem::path& path) {
  auto text = base::readFile(path);
  INFO(path);
  REQUIRE(text);
  return std::move(text).value();
}

Values parsed(const std::string& text) {
  Values values;
  std::istringstream in(text);
  std::string line;
  while (std::getline(in, line)) {
    if (line.empty() || line.front() == '#') continue;
    std::istringstream words(line);
    std::string name;
    double value = 0;
    INFO("line: " << line);
    REQUIRE((words >> name >> value));
    values[name] = value;
  }
  return values;
}

void compareValues(const Script& row, const Values& theirs) {
  const auto table = base::parseCsv(textOf(here / "data" / row.data));
  REQUIRE(table);
  const Values ours = row.ours(*table);
  INFO(row.script << " on " << row.data);
  CHECK(ours.size() == theirs.size());
  for (const auto& [name, value] : theirs) {
    INFO(name);
    REQUIRE(ours.contains(name));
    const double allowed = row.tolerance * std::max(1.0, std::fabs(value));
    CHECK(ours.at(name) == Approx(value).epsilon(0).margin(allowed));
  }
}

std::string quoted(const std::filesystem::path& path) {
  std::string out = "'";
  for (const char c : path.string())
    out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

bool ran(const std::string& command) {
  return std::system(command.c_str()) == 0;
}

} // namespace

TEST_CASE("Our estimates agree with the answers recorded from R") {
  for (const auto& row : scripts) {
    const auto name = std::filesystem::path(row.data).stem().string() + ".txt";
    compareValues(row, parsed(textOf(here / "expected" / name)));
  }
}

TEST_CASE("Our estimates agree with R's, made now") {
  if (!test::runsOutside("R", ran("command -v Rscript >/dev/null 2>&1"))) return;
  const test::Scratch scratch;
  for (const auto& row : scripts) {
    const bool worked = ran("Rscript --vanilla " + quoted(here / "scripts" / row.script) + " " +
                            quoted(here / "data" / row.data) + " >" + quoted(scratch / "out") +
                            " 2>" + quoted(scratch / "err"));
    INFO(row.script << ": " << textOf(scratch / "err"));
    REQUIRE(worked);
    compareValues(row, parsed(textOf(scratch / "out")));
  }
}
