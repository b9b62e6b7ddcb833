#include "exchange/setup/setup_document.h"

#include "support/samples/bad_setups.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

using namespace gk;
using nlohmann::json;

namespace {

const json schema = json::parse(std::ifstream(GK_SOURCE_DIR "/schema/setup.schema.json"));

/// What an object of the schema may have in it, each with its own schema.
std::vector<std::pair<std::string, json>> objectsIn(const json& part, const std::string& at) {
  if (part.value("type", json()) == "array") return objectsIn(part.at("items"), at + "/0");
  if (!part.contains("properties")) return {};
  std::vector<std::pair<std::string, json>> all{{at, part}};
  for (const auto& [name, below] : part.at("properties").items())
    for (auto& object : objectsIn(below, at + "/" + name))
      all.push_back(std::move(object));
  return all;
}

std::string detailOf(const std::string& text) {
  const auto read = exchange::readSetup(text);
  REQUIRE_FALSE(read);
  return read.error().detail;
}

} // namespace

TEST_CASE("A setup document is refused with its place and its code, whatever is wrong with it",
          "[case-350]") {
  for (const auto& bad : test::badSetups()) {
    const auto read = exchange::readSetup(bad.json);
    INFO(bad.what);
    REQUIRE_FALSE(read);
    INFO(read.error().detail);
    CHECK(base::errorName(read.error().code) == bad.code);
    CHECK(read.error().detail.starts_with(bad.at));
    CHECK(read.error().detail.find("line ") != std::string::npos);
  }
}

TEST_CASE("A setup document of a later version is said to be one", "[case-350]") {
  CHECK(detailOf(R"({"format": "groovekeeper-setup", "version": 2})")
            .find("this program reads version 1; open this document with a newer one") !=
        std::string::npos);
}

TEST_CASE("A setup document is read whole, with all that it says and nothing that it does not",
          "[case-350]") {
  const auto read = exchange::readSetup(test::setupSample);
  INFO((read ? "" : read.error().detail));
  REQUIRE(read);
  CHECK(read->program->value.times.etch == base::Seconds(30));
  CHECK(read->schools.size() == 1);
  CHECK(read->enrollment.size() == 13);
  CHECK(read->terms.at(0).value.holidays.front().iso() == "2026-10-12");
  CHECK(read->years.at(0).value.kind == roster::YearKind::school);
  CHECK(read->team.at(0).value.may == roster::TaskSet{roster::Task::type, roster::Task::sign});
  CHECK(read->team.at(1).value.may == roster::usualTasks(roster::Role::hygienist));
  CHECK(read->lots.at(0).value.expiry.iso() == "2027-04-30");
  CHECK(read->lots.at(0).formerly == "RF-2906");
  CHECK(read->cureTimes.at(0).light == "L-1");
  CHECK(read->plans.at(0).day.value.chairs == 2);
  CHECK(read->rosters.at(0).dates == roster::DateOrder::monthFirst);

  // What is put over a thing changes what is said and leaves the rest, one name at a time too.
  const auto little = exchange::readSetup(
      test::setupOf(R"("team": [{"initials": "OF", "license_until": null, "license": " L2 "}])"));
  REQUIRE(little);
  auto member = read->team.at(1).value;
  auto wanted = member;
  little->team.at(0).into(member, "license");
  wanted.license = "L2";
  CHECK(member == wanted);
  little->team.at(0).into(member, {});
  wanted.licenseUntil.reset();
  CHECK(member == wanted);
  CHECK(little->team.at(0).says ==
        std::vector<std::string>{"initials", "license", "license_until"});
  // A whole number may be written as JSON lets it be.
  CHECK(exchange::readSetup(test::setupOf(R"("program": {"suppress_below": 12.0})")));
}

TEST_CASE("The published schema of a setup names what the program reads, and nothing else",
          "[case-350]") {
  const auto sample = json::parse(test::setupSample);
  std::size_t names = 0;
  for (const auto& [at, part] : objectsIn(schema, "")) {
    INFO(at);
    CHECK(part.at("additionalProperties") == false);
    std::set<std::string> inSchema;
    for (const auto& [name, below] : part.at("properties").items()) {
      inSchema.insert(name);
      // The sample is what the schema's own test reads, so it has to say everything.
      CHECK(sample.contains(json::json_pointer(at + "/" + name)));
    }
    // The reader says what it knows where it meets a name that it does not.
    auto with = sample;
    with[json::json_pointer(at)]["zz-not-known"] = 1;
    const auto detail = detailOf(with.dump());
    const auto from = detail.find("known are: ");
    REQUIRE(from != std::string::npos);
    std::set<std::string> inReader;
    std::string list = detail.substr(from + 11) + ", ";
    for (std::size_t start = 0, end = 0; (end = list.find(", ", start)) != std::string::npos;
         start = end + 2)
      inReader.insert(list.substr(start, end - start));
    CHECK(inReader == inSchema);
    names += inSchema.size();
    // What it asks for is asked for by both.
    const auto required = part.value("required", json::array());
    for (const auto& needed : required) {
      auto without = sample;
      without[json::json_pointer(at)].erase(needed.get<std::string>());
      CHECK(detailOf(without.dump()).find("is missing") != std::string::npos);
    }
  }
  CHECK(names > 90);
}

TEST_CASE("What is refused of a setup repeats no word of it", "[case-351]") {
  const std::string canary = "Zqtolliver";
  const auto sample = json::parse(test::setupSample);
  std::size_t tried = 0;
  const auto check = [&](const json& changed) {
    const auto read = exchange::readSetup(changed.dump());
    ++tried;
    if (read) return;
    INFO(read.error().detail);
    CHECK(read.error().detail.find(canary) == std::string::npos);
  };
  const auto flat = sample.flatten(); // outlives the walk
  for (const auto& [at, value] : flat.items()) {
    const json::json_pointer place(at);
    for (const auto& instead :
         {json(canary), json{{canary, canary}}, json::array({canary}), json(canary + "\x01")}) {
      auto changed = sample;
      changed[place] = instead;
      check(changed);
    }
    if (!sample[place.parent_pointer()].is_object()) continue;
    auto changed = sample;
    changed[place.parent_pointer()][canary] = value;
    check(changed);
  }
  CHECK(tried > 300);
  for (const auto& text : {canary, "{\"" + canary, "{\"" + canary + "\": 1, \"" + canary + "\": 2}",
                           "{\"format\": \"" + canary + "\xff\"}"})
    CHECK(detailOf(text).find(canary) == std::string::npos);
}

TEST_CASE("A setup of more than any program has is refused in a moment", "[case-351]") {
  std::string many = R"({"format": "groovekeeper-setup", "version": 1, "reason": [)";
  for (int i = 0; i < 250'000; ++i)
    many += "0,";
  CHECK(detailOf(many + "0]}").find("more than") != std::string::npos);
  std::string names = R"({"format": "groovekeeper-setup", "version": 1, )";
  for (int i = 0; i < 190'000; ++i)
    names += "\"n" + std::to_string(i) + "\":0,";
  CHECK(detailOf(names + "\"n7\":0}").find("not known") != std::string::npos);
  std::string dates = R"("terms": [{"name": "A", "holidays": [)";
  auto day = base::Date::of(1950, 1, 1).value();
  for (int i = 0; i < 1'001; ++i)
    dates += (i > 0 ? ",\"" : "\"") + day.plusDays(i).iso() + "\"";
  CHECK(detailOf(test::setupOf(dates + "]}]")).starts_with("/terms/0/holidays, line 1"));
}
