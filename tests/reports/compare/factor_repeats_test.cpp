// One comparison under two names, and the funnel, in terms in which no light does anything (own
// simulation, nothing of the program in it).

#include "reports/compare/comparison_table.h"
#include "reports/compare/idle_lights.h"
#include "support/known_truth.h"
#include "support/long_checks.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>

using namespace gk;
using namespace gk::reports;
using test::IdleLights;
using test::idleQuick;
using test::Serves;

TEST_CASE("A value that parts the teeth as one of another factor is compared and counted once",
          "[case-517]") {
  // Three lights, of which L-2 is the light of all that was placed by four hands; as two values are
  // not three, no factor parts the teeth as another does.
  const auto at = [](bool isApart) {
    IdleLights term(5);
    term.fill(4, 20, Serves::someChildren);
    const auto three =
        term.make.row<kit::Light>({"L-3", kit::LightType::led, {0}, {1000}, true, "M-1"});
    term.records.lights.push_back(three);
    std::size_t i = 0;
    for (auto& row : term.records.placements) {
      row.value.fourHanded = row.value.light == term.two.id;
      if (row.value.light == term.one.id && ++i % 3 == 0) row.value.light = three.id;
      if (isApart && i == 2) row.value.fourHanded = true;
    }
    constexpr std::array factors{Factor::delivery, Factor::light, Factor::arch};
    return compareFactors(RetentionFacts(term.records), factors, {}, idleQuick());
  };
  const auto same = at(false);
  REQUIRE(same.size() == 3);
  CHECK(same[0].alsoCalled.empty());
  const auto& delivery = same[0].values.front();
  const auto& light = same[1].values[1];
  REQUIRE(delivery.line.label == "four-handed");
  REQUIRE(light.line.label == "L-2");
  CHECK(delivery.p);
  CHECK_FALSE(light.p);
  CHECK_FALSE(light.adjustedP);
  REQUIRE(light.sameAs);
  CHECK(light.sameAs->factor == Factor::delivery);
  CHECK_FALSE(light.sameAs->isReversed);
  CHECK(delivery.alsoOf == std::vector{Factor::light});
  CHECK(same[0].comparedTogether == 4); // one of delivery, two more lights, one of the arches
  const auto table = comparisonTable(same[1]);
  CHECK(table.rows[1].at(8) == "as four-handed");
  CHECK(table.rows[0].at(8) != "as four-handed");
  CHECK(std::ranges::any_of(table.notes, [](const std::string& note) {
    return note.find("compared and counted once") != std::string::npos;
  }));
  const auto apart = at(true); // one tooth makes it another comparison
  CHECK(apart[1].values[1].p);
  CHECK_FALSE(apart[1].values[1].sameAs);
  CHECK(apart[0].comparedTogether == 5);
}

TEST_CASE("The same teeth on the other side are said to be reversed", "[case-517]") {
  IdleLights term(5);
  term.fill(4, 20, Serves::someChildren);
  const auto three =
      term.make.row<kit::Light>({"L-3", kit::LightType::led, {0}, {1000}, true, "M-1"});
  term.records.lights.push_back(three);
  std::size_t i = 0;
  for (auto& row : term.records.placements) {
    row.value.fourHanded = row.value.light == term.one.id; // of the pair the first is four-handed
    if (row.value.light == term.one.id && ++i % 3 == 0) row.value.light = three.id;
  }
  constexpr std::array factors{Factor::delivery, Factor::light};
  const auto found = compareFactors(RetentionFacts(term.records), factors, {}, idleQuick());
  const auto& light = found[1].values[1];
  REQUIRE(light.line.label == "L-2");
  REQUIRE(light.sameAs);
  CHECK(light.sameAs->isReversed);
  CHECK(comparisonTable(found[1]).rows[1].at(8) == "as four-handed, reversed");
}

namespace {

struct Outside {
  int former = 0; ///< lights outside their expected range, with the design effect of children alone
  int now = 0;
  int placed = 0; ///< lights with a place now
};

/// Four lights, each of the schools of its number, or of some children of each school.
Outside outsideOf(int schools, int children, bool areOfSchools, int terms) {
  Outside out;
  for (int i = 0; i < terms; ++i) {
    IdleLights term(static_cast<std::uint64_t>(5000 + i));
    std::vector<kit::LightId> lights{term.one.id, term.two.id};
    for (const auto* tag : {"L-3", "L-4"}) {
      term.records.lights.push_back(
          term.make.row<kit::Light>({tag, kit::LightType::led, {0}, {1000}, true, "M-1"}));
      lights.push_back(term.records.lights.back().id);
    }
    term.fill(schools, children, Serves::halfTheSchools);
    std::size_t at = 0;
    for (auto& row : term.records.placements) {
      const auto child = at++ / 4;
      const auto school = child / static_cast<std::size_t>(children);
      // Shared at every seventh child, so that each light has a place.
      row.value.light =
          lights.at((areOfSchools && child % 7 != 0 ? school : child) % lights.size());
    }
    const RetentionFacts facts(term.records);
    const auto compared = compareFactor(facts, Factor::light, {}, idleQuick());
    const auto byChild = compareFactor(facts, Factor::school, {}, idleQuick()).designEffect;
    std::vector<estimates::Unit> units;
    for (const auto& value : compared.values)
      units.push_back(
          {static_cast<double>(value.line.assessable), static_cast<double>(value.line.whole)});
    const auto placesBefore = estimates::departures(units, byChild);
    for (const auto& unit : placesBefore->units)
      out.former += unit.place != estimates::FunnelPlace::within ? 1 : 0;
    for (const auto& value : compared.values) {
      out.placed += value.funnel ? 1 : 0;
      out.now += value.funnel && value.funnel->place != estimates::FunnelPlace::within ? 1 : 0;
    }
  }
  return out;
}

} // namespace

TEST_CASE("An idle light of some schools seldom falls outside its expected range", "[case-516]") {
  const int terms = test::rounds(50, 50);
  const auto found = outsideOf(12, 24, true, terms);
  CHECK(found.placed == 4 * terms);
  if (terms < 50) return;      // under a sanitizer too few to tell a rate
  CHECK(found.former > 20);    // twice what one in twenty may be
  CHECK(found.now <= 200 / 8); // 10 expected at most
  test::methodsSay(base::percent(found.now, found.placed, 0) + "% of " +
                   std::to_string(found.placed));
}

TEST_CASE("A light that shares no school has no place while schools are few", "[case-516]") {
  const auto tableOf = [](int schools, Serves serves) {
    IdleLights term(1);
    term.fill(schools, 10, serves);
    return comparisonTable(
        compareFactor(RetentionFacts(term.records), Factor::light, {}, idleQuick()));
  };
  const auto has = [](const Table& table, const char* words) {
    return std::ranges::any_of(table.notes, [&](const std::string& note) {
      return note.find(words) != std::string::npos;
    });
  };
  const auto apart = tableOf(8, Serves::halfTheSchools);
  for (const auto& row : apart.rows) { // of the pair the second too
    CHECK(row.at(9) == "–");
    CHECK(row.at(10) == "–");
  }
  CHECK(has(apart, "no expected range is given"));
  const auto shared = tableOf(8, Serves::someChildren);
  CHECK(shared.rows.front().at(10) != "–");
  CHECK(has(shared, "so little falls outside by chance"));
  CHECK_FALSE(has(shared, "one of twenty values"));
  const auto one = tableOf(1, Serves::someChildren);
  CHECK(has(one, "about one of twenty values falls outside by chance"));
  CHECK_FALSE(has(one, "what schools differ by"));
}

TEST_CASE("False alarms of the funnel", "[.simulation]") {
  std::cout << "| lights serve | schools | children each | before | now |\n|---|---|---|---|---|\n";
  const auto print = [](const char* words, int schools, int children, bool areOfSchools) {
    constexpr int terms = 300; // four lights each: one standard error at .05 about .7 points
    const auto found = outsideOf(schools, children, areOfSchools, terms);
    std::cout << "| " << words << " | " << schools << " | " << children << " | "
              << 100.0 * found.former / (4 * terms) << "% | " << 100.0 * found.now / (4 * terms)
              << "% |\n"
              << std::flush;
    CHECK(100.0 * found.now / (4 * terms) < 9);
  };
  print("a quarter of the schools", 4, 20, true);
  print("a quarter of the schools", 8, 15, true);
  print("a quarter of the schools", 12, 12, true);
  print("a quarter of the schools", 20, 12, true);
  print("some children of each school", 6, 20, false);
  print("some children of each school", 12, 12, false);
}
