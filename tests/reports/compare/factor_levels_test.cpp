// Terms in which no light does anything (own simulation, nothing of the program in it).

#include "estimates/compare/comparison_clusters.h"
#include "estimates/numbers/permutation.h"
#include "reports/compare/comparison_table.h"
#include "reports/compare/factor_comparison.h"
#include "reports/compare/retention_report.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
#include <random>

using namespace gk;
using namespace gk::reports;
using followup::Held;

namespace {

enum class Serves { halfTheSchools, someChildren, someTeeth };

/// Schools differ (shares kept .85 give or take .12), children about them; lights L-1 and L-2 are
/// the same.
struct IdleLights : test::SampleTerm {
  base::Recorded<kit::Light> one =
      make.row<kit::Light>({"L-1", kit::LightType::led, {0}, {1000}, true, "M-1"});
  base::Recorded<kit::Light> two =
      make.row<kit::Light>({"L-2", kit::LightType::led, {0}, {1000}, true, "M-1"});
  std::mt19937_64 random;

  explicit IdleLights(std::uint64_t seed) : random(seed) { records.lights = {one, two}; }

  double uniform() { return static_cast<double>(random() >> 11U) * 0x1p-53; }
  double about(double mean, double spread) {
    double sum = -6;
    for (int i = 0; i < 12; ++i)
      sum += uniform();
    return std::clamp(mean + spread * sum, .02, .98);
  }

  void fill(int schools, int children, Serves serves) {
    for (int s = 0; s < schools; ++s) {
      const auto here = school("School " + std::to_string(s), 50);
      const auto then = dayLastYear(here, "2025-10-14");
      const auto now = day(here, "2026-10-13");
      const double atSchool = about(.85, .12);
      for (int c = 0; c < children; ++c) {
        const auto id = child(here);
        const double own = about(atSchool, .20);
        for (const int iso : {16, 26, 36, 46}) {
          const auto placement = place(id, then, iso);
          const bool isTwo = serves == Serves::halfTheSchools ? s % 2 == 0
                             : serves == Serves::someChildren ? c % 2 == 0
                                                              : iso == 16 || iso == 36;
          records.placements.back().value.light = isTwo ? two.id : one.id;
          check(placement, now, uniform() < own ? Held::whole : Held::lost);
        }
      }
    }
  }
};

ComparisonOptions quick() {
  ComparisonOptions options;
  options.replicates = 100;
  return options;
}

std::optional<double> pOf(IdleLights& term) {
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::light, {}, quick());
  return compared.values.front().p;
}

/// With children as clusters and no regard to schools, as it was.
double formerP(const IdleLights& term) {
  const RetentionFacts facts(term.records);
  std::vector<estimates::ComparedTooth> rows;
  for (const auto& fact : facts.rows())
    rows.push_back({fact.child, static_cast<std::size_t>(fact.type), fact.at(Factor::light) == 0,
                    fact.held == Held::whole});
  base::SeededRandom random(1);
  return estimates::compareClustered(rows, random, 100)->p.value();
}

struct Alarms {
  int former = 0;
  int now = 0;
  int withP = 0;
};

Alarms alarmsOf(int schools, int children, Serves serves, int terms) {
  Alarms out;
  for (int i = 0; i < terms; ++i) {
    IdleLights term(static_cast<std::uint64_t>(1000 + i));
    term.fill(schools, children, serves);
    out.former += formerP(term) < .05 ? 1 : 0;
    const auto p = pOf(term);
    out.withP += p ? 1 : 0;
    out.now += p && *p < .05 ? 1 : 0;
  }
  return out;
}

} // namespace

TEST_CASE("A light of half the schools is not blamed for its schools", "[case-187]") {
  const auto few = alarmsOf(8, 15, Serves::halfTheSchools, 20);
  CHECK(few.withP == 0); // four schools a side
  const auto many = alarmsOf(12, 12, Serves::halfTheSchools, 150);
  CHECK(many.withP == 150);
  CHECK(many.former > 15); // twice what a test of 5 % may call
  CHECK(many.now <= 16);   // 7.5 expected; 16 or more in one of 250
  IdleLights term(1);
  term.fill(8, 15, Serves::halfTheSchools);
  const auto table =
      comparisonTable(compareFactor(RetentionFacts(term.records), Factor::light, {}, quick()));
  CHECK(table.rows.front().at(8) == "cannot be separated from schools");
  CHECK(table.rows.front().at(7) == "–");
}

TEST_CASE("False alarms of the factor tests", "[.simulation]") {
  std::cout << "| varies | schools | children each | before | now |\n|---|---|---|---|---|\n";
  const auto print = [](const char* words, int schools, int children, Serves serves) {
    constexpr int terms = 300; // one standard error at .05: 1.3 points
    const auto found = alarmsOf(schools, children, serves, terms);
    std::cout << "| " << words << " | " << schools << " | " << children << " | "
              << 100.0 * found.former / terms << " % | ";
    if (found.withP == 0)
      std::cout << "no p |\n" << std::flush;
    else
      std::cout << 100.0 * found.now / terms << " % |\n" << std::flush;
    CHECK(100.0 * found.now / terms < 9);
  };
  print("between schools", 8, 15, Serves::halfTheSchools);
  print("between schools", 12, 12, Serves::halfTheSchools);
  print("between schools", 20, 12, Serves::halfTheSchools);
  print("between children of a school", 6, 20, Serves::someChildren);
  print("between children of a school", 12, 12, Serves::someChildren);
  print("within children", 6, 20, Serves::someTeeth);
  print("within children", 12, 12, Serves::someTeeth);
}

TEST_CASE("A perfect separation has a p where children can be permuted", "[case-188]") {
  IdleLights term(3);
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto then = term.dayLastYear(here, "2025-10-14");
  const auto now = term.day(here, "2026-10-13");
  for (int i = 0; i < 40; ++i) {
    const auto placement = term.place(term.child(here), then, 16);
    term.records.placements.back().value.light = i % 2 ? term.two.id : term.one.id;
    term.check(placement, now, i % 2 && i < 20 ? Held::lost : Held::whole);
  }
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::light, {}, quick());
  const auto& value = compared.values.front();
  REQUIRE(value.against);
  CHECK_FALSE(value.against->p); // one side lost none: no variance
  REQUIRE(value.p);
  CHECK(value.permuted == Permuted::childrenInSchools);
  CHECK(*value.p < .01);
}

TEST_CASE("A school that kept all has a p, by permuting children among the schools", "[case-361]") {
  // By hand: two schools of 20 children with a tooth each; at one 20 are whole, at the other 12. Of
  // all ways to deal 8 losses to 40 children, C(20,8)/C(40,8) leave the first school none: .0016,
  // and twice that on both sides.
  test::SampleTerm term;
  for (const int lost : {0, 8}) {
    const auto here = term.school(lost == 0 ? "Alder Hollow" : "Cobble Lantern", 142);
    const auto then = term.dayLastYear(here, "2025-10-14");
    const auto now = term.day(here, "2026-10-13");
    for (int i = 0; i < 20; ++i)
      term.check(term.place(term.child(here), then, 16), now, i < lost ? Held::lost : Held::whole);
  }
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::school, {}, quick());
  const auto& value = compared.values.front();
  REQUIRE(value.against);
  CHECK_FALSE(value.against->p);
  REQUIRE(value.p);
  CHECK(value.permuted == Permuted::children);
  CHECK(*value.p == Approx(.0033).margin(.002)); // 9,999 drawn: one standard error .0006
  const auto notes = comparisonTable(compared).notes;
  CHECK(std::ranges::any_of(notes, [](const std::string& note) {
    return note.find("permuting children among the schools") != std::string::npos;
  }));
}

TEST_CASE("Where a child has teeth on both sides, they change sides within it", "[case-361]") {
  // By hand: in each of 8 children the upper first molar is whole and the lower one lost. Of the
  // 2^8 ways to change sides within each child two are as far from even: p = 1/128.
  IdleLights term(3);
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto then = term.dayLastYear(here, "2025-10-14");
  const auto now = term.day(here, "2026-10-13");
  for (int i = 0; i < 8; ++i) {
    const auto id = term.child(here);
    term.check(term.place(id, then, 16), now, Held::whole);
    term.check(term.place(id, then, 46), now, Held::lost);
  }
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::arch, {}, quick());
  const auto& value = compared.values.front();
  REQUIRE(value.p);
  CHECK(value.permuted == Permuted::teeth);
  CHECK(*value.p == Approx(1 / 128.).margin(.003)); // one standard error .0009
}

TEST_CASE("What the bootstrap resamples is said of schools only where they are the units",
          "[case-362]") {
  const auto notesOf = [](int schools, Serves serves) {
    IdleLights term(7);
    term.fill(schools, 6, serves);
    std::string all;
    for (const auto& note :
         comparisonTable(compareFactor(RetentionFacts(term.records), Factor::light, {}, quick()))
             .notes)
      all += note + "\n";
    return all;
  };
  CHECK(notesOf(12, Serves::halfTheSchools).find("bootstrap resamples schools") !=
        std::string::npos);
  CHECK(notesOf(12, Serves::halfTheSchools).find("bootstrap resamples children") ==
        std::string::npos);
  CHECK(notesOf(12, Serves::someChildren).find("bootstrap resamples children") !=
        std::string::npos);
  CHECK(notesOf(12, Serves::someChildren).find("bootstrap resamples schools") == std::string::npos);
}

TEST_CASE("One split under two names is compared once, and all of a report are adjusted together",
          "[case-189]") {
  IdleLights term(5);
  term.fill(4, 20, Serves::someChildren);
  for (auto& row : term.records.placements)
    row.value.fourHanded = row.value.light == term.two.id; // the same teeth again
  const RetentionFacts facts(term.records);
  constexpr std::array factors{Factor::light, Factor::delivery, Factor::arch};
  const auto compared = compareFactors(facts, factors, {}, quick());
  REQUIRE(compared.size() == 2);
  CHECK(compared[0].alsoCalled == std::vector{Factor::delivery});
  CHECK(compared[0].comparedTogether == 2);
  CHECK(*compared[0].values.front().adjustedP >= *compared[0].values.front().p);
  const auto table = comparisonTable(compared[0]);
  CHECK(std::ranges::any_of(table.notes, [](const std::string& note) {
    return note.find("By two or four hands the teeth divide in the same way") != std::string::npos;
  }));
}

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
    return compareFactors(RetentionFacts(term.records), factors, {}, quick());
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
  const auto found = compareFactors(RetentionFacts(term.records), factors, {}, quick());
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
    const auto compared = compareFactor(facts, Factor::light, {}, quick());
    const auto byChild = compareFactor(facts, Factor::school, {}, quick()).designEffect;
    std::vector<estimates::Unit> units;
    for (const auto& value : compared.values)
      units.push_back(
          {static_cast<double>(value.line.assessable), static_cast<double>(value.line.whole)});
    for (const auto& unit : estimates::departures(units, byChild)->units)
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
  const auto found = outsideOf(12, 12, true, 60);
  CHECK(found.placed == 240);
  CHECK(found.former > 24);    // twice what one in twenty may be
  CHECK(found.now <= 240 / 8); // 12 expected at most
}

TEST_CASE("A light that shares no school has no place while schools are few", "[case-516]") {
  const auto tableOf = [](int schools, Serves serves) {
    IdleLights term(1);
    term.fill(schools, 10, serves);
    return comparisonTable(compareFactor(RetentionFacts(term.records), Factor::light, {}, quick()));
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
  CHECK(has(shared, "with few schools little can fall outside"));
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

TEST_CASE("A permutation of few units gives the share of arrangements as far off") {
  // Three of six, the three best: of 20 arrangements 2 are as far from the middle.
  const std::vector<estimates::PermutedUnit> units{{0, true, 6},  {0, true, 5},  {0, true, 4},
                                                   {0, false, 3}, {0, false, 2}, {0, false, 1}};
  base::SeededRandom random(7);
  const auto p = estimates::permutationP(units, random).value();
  REQUIRE(p);
  CHECK(*p == Approx(.1).margin(.012)); // 9,999 drawn: one standard error .003
  const std::vector<estimates::PermutedUnit> apart{{0, true, 1}, {1, false, 0}};
  CHECK_FALSE(estimates::permutationP(apart, random).value());
  CHECK(!estimates::permutationP(units, random, 10));
}
