#include "list_reading.h"

#include "base/text/csv.h"
#include "base/text/text.h"
#include "base/time/date.h"
#include "dentition/surfaces.h"
#include "roster/child/child.h"

#include <catch2/catch.hpp>
#include <functional>

using namespace gk;

// Whatever reads a cell or a field of a child's row, with a name in the wrong place.
TEST_CASE("No reader of a child's row repeats what it could not read", "[case-111]") {
  using Read = std::function<base::Error(const std::string&)>;
  const auto of = [](auto read) -> Read {
    return [read](const std::string& text) {
      const auto value = read(text);
      REQUIRE_FALSE(value.has_value());
      return value.error();
    };
  };
  using dentition::Notation;
  const auto today = *base::Date::parse("2026-11-17");
  const std::vector<std::pair<const char*, Read>> readers{
      {"date", of([](const auto& text) { return base::Date::parse(text); })},
      {"numeric date", of([](const auto& text) { return base::parseNumericDate(text); })},
      {"expiry", of([](const auto& text) { return base::parseExpiry(text); })},
      {"whole number", of([](const auto& text) { return base::parseInt(text); })},
      {"number", of([](const auto& text) { return base::parseDouble(text); })},
      {"grade", of([](const auto& text) { return roster::gradeNumber(text); })},
      {"child number", of([](const auto& text) { return roster::parseChildNumber(text); })},
      {"tooth",
       of([](const auto& text) { return dentition::Tooth::parse(text, Notation::universal); })},
      {"two-digit tooth",
       of([](const auto& text) { return dentition::Tooth::parse(text, Notation::iso3950); })},
      {"surfaces", of([](const auto& text) { return dentition::parseSurfaces(text); })},
      {"teeth",
       of([](const auto& text) { return dentition::parseTeeth(text, Notation::universal); })},
      {"table",
       of([](const auto& text) { return base::parseCsv(text + "\n" + text + "," + text + "\n"); })},
      {"column", of([](const auto& text) {
         return base::CsvTable{{text}, {}}.column("number");
       })},
      {"roster",
       of([&](const auto& text) { return roster::test::readList(text + "\nx\n", today); })},
      {"roster's row", of([&](const auto& text) {
         return roster::test::readList("first,birth_date,grade,number,sex,consent,services\n,z," +
                                           text + "," + text + "," + text + "," + text + "," +
                                           text + "\n",
                                       today);
       })},
  };
  for (const auto& [what, read] : readers) {
    INFO(what);
    const auto error = read("Tolliver");
    INFO(error.detail);
    CHECK(error.detail.find("Tolliver") == std::string::npos);
    CHECK(error.detail.find("tolliver") == std::string::npos);
  }
}
