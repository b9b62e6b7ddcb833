#include "journeys/told.h"
#include "office/run.h"
#include "reports/print/render.h"
#include "reports/publish/published.h"
#include "support/clinic.h"
#include "support/outside.h"
#include "support/samples/bad_setups.h"
#include "support/samples/setup_sample.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

using namespace gk;
using gk::test::must;
using gk::test::Told;

namespace {

const base::Path source = GK_SOURCE_DIR;

std::string quoted(const base::Path& path) {
  return "'" + path.string() + "'"; // the tests' own folders hold no quotes
}

bool ran(const std::string& command) {
  return std::system(command.c_str()) == 0;
}

/// The system's own Python, where Debian's packages are.
const std::string python = "/usr/bin/python3";

bool hasSchemaValidator() {
  return test::runsOutside("python3-jsonschema",
                           ran(python + " -c 'import jsonschema' 2>/dev/null"));
}

const base::Path fhirValidator = source / ".ci/fhir/validate.js";

bool hasFhirValidator() {
  return test::runsFhirValidator(std::filesystem::exists(source / ".ci/fhir/node_modules/fhir") &&
                                 ran("command -v node >/dev/null 2>&1"));
}

void checkAgainstSchema(const base::Path& file, const base::Path& schema, const base::Path& log) {
  const bool fits = ran(python + " " + quoted(source / ".ci/json-schema.py") + " " +
                        quoted(schema) + " " + quoted(file) + " 2>" + quoted(log));
  INFO(must(base::readFile(log)));
  CHECK(fits);
}

} // namespace

TEST_CASE("The demo's exports fit their JSON Schemas by an independent validator") {
  if (!hasSchemaValidator()) return;
  Told told(demo::Until::closed);
  const auto log = told.folder() / "log";
  const auto schema = source / "schema/extract.schema.json";
  const auto terms = must(told.book().terms());
  for (const auto& term : terms) {
    const auto file = told.folder() / "term.json";
    std::ofstream out(file);
    must(told.book().extractTerm(term.id, term.value.end, out));
    out.close();
    checkAgainstSchema(file, schema, log);
  }
  const auto days = must(told.book().days(terms.back().id));
  for (const auto& day : {days.front(), days.back()}) {
    const auto file = told.folder() / "day.json";
    std::ofstream out(file);
    must(told.book().extractDay(day.id, out));
    out.close();
    checkAgainstSchema(file, schema, log);
  }
  must(base::replaceFile(told.folder() / "odd.json", "{\"format\": \"groovekeeper-extract\"}\n"));
  CHECK_FALSE(ran(python + " " + quoted(source / ".ci/json-schema.py") + " " + quoted(schema) +
                  " " + quoted(told.folder() / "odd.json") + " 2>/dev/null"));
}

TEST_CASE("The demo's totals and reports fit their JSON Schemas by an independent validator") {
  if (!hasSchemaValidator()) return;
  Told told(demo::Until::closed);
  const std::vector<std::pair<std::vector<std::string>, std::string>> asked{
      {{"totals", "--json"}, "schema/tables.schema.json"},
      {{"totals", "--publish", "--json"}, "schema/tables.schema.json"},
      {{"report", "state", "--json"}, "schema/tables.schema.json"},
      {{"report", "cost", "--json"}, "schema/tables.schema.json"},
      {{"report", "terms-compared", "--json"}, "schema/tables.schema.json"},
      {{"report", "retention", "--json"}, "schema/tables.schema.json"}};
  for (const auto& [words, schema] : asked) {
    const auto file = told.folder() / "totals.json";
    std::ofstream out(file);
    std::ostringstream err;
    std::istringstream in;
    base::ManualClock clock(base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(18),
                                          std::chrono::hours(-5)));
    base::SeededRandom random(1);
    std::vector<std::string> call{words.front(), (told.folder() / "demo.gkbook").string()};
    call.insert(call.end(), words.begin() + 1, words.end());
    INFO(schema);
    CHECK(office::run(call, {clock, random, in, out, err, [](const std::string&) {
                               return std::optional<std::string>();
                             }}) == 0);
    INFO(err.str());
    out.close();
    checkAgainstSchema(file, source / schema, told.folder() / "log");
  }
}

TEST_CASE("A setup that the program reads fits its JSON Schema by an independent validator",
          "[case-350]") {
  if (!hasSchemaValidator()) return;
  const test::Scratch scratch;
  const auto schema = source / "schema/setup.schema.json";
  const auto file = scratch / "setup.json";
  for (const auto& fits : {test::setupSample, test::setupOf("")}) {
    must(base::replaceFile(file, fits));
    checkAgainstSchema(file, schema, scratch / "log");
  }
  for (const auto& bad : test::badSetups()) {
    if (!bad.isSeenBySchema) continue;
    INFO(bad.what);
    must(base::replaceFile(file, bad.json));
    CHECK_FALSE(ran(python + " " + quoted(source / ".ci/json-schema.py") + " " + quoted(schema) +
                    " " + quoted(file) + " 2>/dev/null"));
  }
}

TEST_CASE("The demo's last day is valid FHIR R4 by HL7's structure definitions") {
  if (!hasFhirValidator()) return;
  Told told(demo::Until::closed);
  const auto days = must(told.book().days(must(told.book().terms()).back().id));
  const auto last =
      std::ranges::max_element(days, {}, [](const auto& day) { return day.value.date; });
  const auto validate = [&] {
    const auto file = told.folder() / "day.fhir.json";
    std::ofstream out(file);
    must(told.book().writeFhir(last->id, out));
    out.close();
    const bool fits = ran("node " + quoted(fhirValidator) + " " + quoted(file) + " 2>" +
                          quoted(told.folder() / "log"));
    INFO(must(base::readFile(told.folder() / "log")));
    CHECK(fits);
  };
  validate();
  must(base::replaceFile(told.folder() / "odd.json",
                         R"({"resourceType": "Bundle", "type": "nonsense"})"));
  CHECK_FALSE(ran("node " + quoted(fhirValidator) + " " + quoted(told.folder() / "odd.json") +
                  " 2>/dev/null"));
}

TEST_CASE("A dentist's words leave as data that fits the schema and HL7's structure definitions",
          "[case-82]") {
  test::Clinic clinic(roster::Supervision::dentistExamRequired);
  const auto mina = clinic.child("Mina");
  const auto words = must(clinic.session.authorize(
      clinic.by, {clinic.authorization(mina, {16, 46}), clinic.authorization(mina, {26})}));
  auto late = clinic.authorization(mina, {36}); // over before the day
  late.on = must(base::Date::parse("2026-01-12"));
  late.until = must(base::Date::parse("2026-06-30"));
  must(clinic.session.authorize(clinic.by, {late}));
  for (const auto& row : must(clinic.session.authorizations(mina)))
    if (row.id == words.back())
      must(clinic.session.withdrawAuthorization(clinic.by, row, "the dentist called back"));
  clinic.seat(mina);
  clinic.screenFour(mina);

  const auto folder = clinic.folder->path();
  const auto json = folder / "day.json";
  const auto fhir = folder / "day.fhir.json";
  {
    std::ofstream out(json);
    must(clinic.session.extractDay(clinic.day, out));
    std::ofstream bundle(fhir);
    must(clinic.session.writeFhir(clinic.day, bundle));
  }
  const auto read = nlohmann::json::parse(must(base::readFile(json)));
  const auto& told = read.at("children").at(0).at("authorizations");
  REQUIRE(told.size() == 2);
  CHECK(told[0].at("withdrawn") != told[1].at("withdrawn"));
  CHECK(must(base::readFile(fhir)).find("ServiceRequest") != std::string::npos);
  const auto term = folder / "term.json";
  {
    std::ofstream out(term);
    must(clinic.session.extractTerm(clinic.term, must(base::Date::parse("2026-12-18")), out));
  }
  if (hasSchemaValidator())
    for (const auto& file : {json, term})
      checkAgainstSchema(file, source / "schema/extract.schema.json", folder / "log");
  if (hasFhirValidator()) CHECK(ran("node " + quoted(fhirValidator) + " " + quoted(fhir)));
}

TEST_CASE("The county's published tables hide Cobble Lantern's two urgent children", "[case-83]") {
  Told told(demo::Until::closed);
  const auto totals = reports::termTotals(told.term(1));
  const auto text = reports::toText(reports::publish(totals).tables);
  const auto findings = text.find("\nFindings\n");
  const auto line = text.find("Cobble Lantern Elementary", findings);
  const auto row = text.substr(line, text.find('\n', line) - line);
  INFO(row);
  CHECK(row.find("fewer than 10") != std::string::npos);
  CHECK(row.find("suppressed") != std::string::npos);
}
