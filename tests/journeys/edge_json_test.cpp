#include "base/files/files.h"
#include "base/text/text.h"
#include "office/tables/tables_json.h"
#include "reports/day/close_out_tables.h"
#include "reports/term/term_tables.h"
#include "support/outside.h"
#include "support/samples/edge_days.h"
#include "support/samples/edge_terms.h"
#include "support/scratch.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <map>
#include <regex>
#include <sstream>

using namespace gk;
using nlohmann::json;

namespace {

std::string shellQuoted(const base::Path& path) {
  return "'" + path.string() + "'"; // the tests' own folders hold no quotes
}

/// What stands in the file and is no value of JSON, or is zero with a sign.
std::string badToken(const std::string& text) {
  static const std::regex bad(
      R"([\s\[:,](-0(\.0*)?(e[+-]?\d+)?|[+-]?nan|[+-]?inf(inity)?)[\s,\]\}])", std::regex::icase);
  static const std::regex strings(R"re("(\\.|[^"\\])*")re");
  const auto bare = std::regex_replace(text, strings, "\"\"");
  std::smatch found;
  return std::regex_search(bare, found, bad) ? found[1].str() : std::string();
}

/// A figure that stands as words.
bool isFigure(const std::string& words) {
  const auto trimmed = base::trim(words);
  const auto bare = trimmed.ends_with('%') ? trimmed.substr(0, trimmed.size() - 1) : trimmed;
  return base::parseDouble(bare).has_value();
}

/// What no value may be; empty where it is none of that.
std::string trouble(const json& value, const std::string& kind) {
  if (value.is_object()) {
    for (const auto& [key, part] : value.items())
      if (const auto found = trouble(part, kind); !found.empty()) return key + ": " + found;
    if (value.contains("low") && value.at("low") > value.at("high")) return "upside down";
    if (value.contains("count") && value.at("count") > value.at("of")) return "more than all";
    return {};
  }
  if (value.is_number()) {
    const auto number = value.get<double>();
    if (!std::isfinite(number)) return "not finite";
    if (number == 0 && std::signbit(number)) return "zero with a sign";
    if (kind == "share" && !(0 <= number && number <= 1)) return "a share above 1 or below 0";
    return kind == "count" && number != std::floor(number) ? "a count with a fraction" : "";
  }
  if (!value.is_string()) return {};
  const auto words = value.get<std::string>();
  if (isFigure(words)) return "a figure as words"; // no lot or school of these terms is a number
  for (const auto* word : {"nan", "-nan", "inf", "-inf", "-0", "-0.0"})
    if (words == word) return "no figure at all";
  return {};
}

void checkTables(const json& tables) {
  for (const auto& table : tables) {
    std::map<std::string, std::string> kinds;
    for (const auto& column : table.at("columns"))
      kinds[column.at("key")] = column.at("kind");
    for (const auto& row : table.at("rows")) {
      CHECK(row.size() == kinds.size());
      for (const auto& [key, value] : row.items()) {
        REQUIRE(kinds.contains(key));
        const bool namesTeeth = key == "tooth" || key == "teeth"; // by their numbers
        if (namesTeeth && kinds.at(key) == "text") continue;
        const auto found = trouble(value, kinds.at(key));
        if (found.empty()) continue;
        INFO(table.at("title") << ", " << key << " (" << kinds.at(key) << "): " << value);
        CHECK(found == "");
      }
    }
  }
}

} // namespace

TEST_CASE(
    "The JSON of every report of a term at the edge, and of the close-out of such a day, holds "
    "figures that are figures, and fits its schema",
    "[case-454]") {
  const test::Scratch scratch;
  std::string files;
  int written = 0;
  const auto walk = [&](const std::string& title, const std::vector<reports::Table>& tables,
                        office::Digits digits) {
    std::ostringstream out;
    office::writeTablesJson(title, "", tables, digits, out);
    INFO(title);
    CHECK(badToken(out.str()) == "");
    checkTables(json::parse(out.str()).at("tables"));
    const auto file = scratch / (std::to_string(written++) + ".json");
    base::replaceFile(file, out.str()).value();
    files += " " + shellQuoted(file);
  };
  for (const auto& edge : test::edges()) {
    for (const auto& [kind, tables] : test::reportsOf(edge))
      walk(edge.name + ", " + std::string(base::nameOf(kind)), tables,
           reports::isPublished(kind) ? office::Digits::printed : office::Digits::all);
    walk(edge.name + ", totals", reports::termFile(reports::termTotals(edge.records)),
         office::Digits::all);
  }
  for (const auto& [name, sheet] : test::daysAtEdge())
    walk("close-out, " + name, reports::closeOutFile(sheet), office::Digits::all);
  CHECK(written > 400);

  const std::string python = "/usr/bin/python3"; // the system's own, where Debian's packages are
  if (!test::runsOutside("python3-jsonschema",
                         std::system((python + " -c 'import jsonschema' 2>/dev/null").c_str()) ==
                             0))
    return;
  const base::Path source = GK_SOURCE_DIR;
  const bool fits = std::system((python + " " + shellQuoted(source / ".ci/json-schema.py") + " " +
                                 shellQuoted(source / "schema/tables.schema.json") + files + " 2>" +
                                 shellQuoted(scratch / "log"))
                                    .c_str()) == 0;
  INFO(base::readFile(scratch / "log").value());
  CHECK(fits);
}

TEST_CASE("The walk over JSON finds what it looks for", "[case-454]") {
  CHECK(badToken("{\"a\": -0, \"b\": 1}") == "-0");
  CHECK(badToken("[-0.0]") == "-0.0");
  CHECK(badToken("{\"a\": nan}") == "nan");
  CHECK(badToken("{\"a\": -0.5, \"b\": \"x, -0, nan \\\" inf \"}") == "");
  CHECK(trouble("12.5", "share") == "a figure as words");
  CHECK(trouble("12.5%", "range") == "a figure as words");
  CHECK(trouble("fewer than 10", "count") == "");
  CHECK(trouble("3", "text") == "a figure as words");
  CHECK(trouble("Grade 3", "text") == "");
  CHECK(trouble("2026-11-17", "date") == "");
  CHECK(trouble("nan", "text") == "no figure at all");
  CHECK(trouble(1.5, "share") == "a share above 1 or below 0");
  CHECK(trouble(1.5, "count") == "a count with a fraction");
  CHECK(trouble(-0.0, "number") == "zero with a sign");
  CHECK(trouble({{"low", .9}, {"high", .5}}, "range") == "upside down");
  CHECK(trouble({{"count", 5}, {"of", 4}}, "count") == "more than all");
}
