#include "exchange/extract/extract.h"

#include "exchange/sample.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace gk;
using gk::test::SampleExport;

namespace {

std::string extractOf(const SampleExport& sample, std::uint64_t seed = 1) {
  base::SeededRandom random(seed);
  std::ostringstream out;
  exchange::writeExtract(sample.records, exchange::Scope::day, random, out);
  return out.str();
}

nlohmann::json parsed(const std::string& text) {
  return nlohmann::json::parse(text);
}

} // namespace

TEST_CASE("An extract names no one and holds no number, room or free text") {
  SampleExport sample;
  for (auto& row : sample.records.consents)
    row.value.allowed = roster::ServiceSet::all();
  const auto text = extractOf(sample);
  CHECK(parsed(text).at("children").size() == 2);
  for (const std::string word :
       {"Mina", "Tolliver", "1043-0", "1051-1", "Quarry", "Secret", "2019-03-04"})
    CHECK(text.find(word) == std::string::npos);
  for (const auto& child : sample.records.children)
    CHECK(text.find(child.id.text()) == std::string::npos);
  CHECK(parsed(text).at("children")[0].at("birth_month") == "2019-03");
}

TEST_CASE("A child whose form does not allow data for reports is counted and left out") {
  const auto json = parsed(extractOf(SampleExport()));
  CHECK(json.at("children").size() == 1);
  CHECK(json.at("children_left_out") == 1);
}

TEST_CASE("An extract tells what was done, with teeth, words and units") {
  const auto json = parsed(extractOf(SampleExport()));
  CHECK(json.at("format") == "groovekeeper-extract");
  CHECK(json.at("version") == 2);
  const auto& child = json.at("children")[0];
  const auto& placement = child.at("placements")[0];
  CHECK(placement.at("tooth") == 16);
  CHECK(placement.at("surfaces") == nlohmann::json{"occlusal", "lingual groove"});
  CHECK(placement.at("etched") == 20.5);
  CHECK(placement.at("cured").is_null());
  CHECK(placement.at("date") == "2026-11-17");
  CHECK(child.at("checks")[0].at("placement") == placement.at("id"));
  CHECK(child.at("school") == json.at("schools")[0].at("id"));
}

TEST_CASE("An extract tells which teeth a dentist let be sealed, and until when") {
  SampleExport sample;
  sample.records.authorizations.front().value.withdrawn = true;
  const auto json = parsed(extractOf(sample));
  const auto& child = json.at("children")[0];
  REQUIRE(child.at("authorizations").size() == 1);
  const auto& word = child.at("authorizations")[0];
  CHECK(word.at("how") == "exam at school");
  CHECK(word.at("on") == "2026-11-10");
  CHECK(word.at("until") == "2027-11-09");
  CHECK(word.at("withdrawn") == true);
  CHECK(word.at("teeth") ==
        nlohmann::json::parse(R"([{"tooth": 16, "surfaces": ["occlusal", "lingual groove"]}])"));
  CHECK(word.at("dentist").get<std::string>().size() == 32); // a pseudonym, as of all staff
}

TEST_CASE("The same randomness gives the same bytes, and other randomness other pseudonyms") {
  CHECK(extractOf(SampleExport(), 1) == extractOf(SampleExport(), 1));
  CHECK(parsed(extractOf(SampleExport(), 1)).at("children")[0].at("id") !=
        parsed(extractOf(SampleExport(), 2)).at("children")[0].at("id"));
}

TEST_CASE("An extract of a day without children is whole") {
  SampleExport sample;
  sample.records.children.clear();
  CHECK(parsed(extractOf(sample)).at("children").empty());
}
