// Terms in which no light does anything (own simulation, nothing of the program in it).

#include "estimates/compare/comparison_clusters.h"
#include "estimates/numbers/permutation.h"
#include "reports/compare/comparison_table.h"
#include "reports/compare/factor_comparison.h"
#include "reports/compare/idle_lights.h"
#include "reports/compare/retention_report.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>

using namespace gk;
using namespace gk::reports;
using followup::Held;
using test::IdleLights;
using test::idleQuick;
using test::Serves;

namespace {

std::optional<double> pOf(IdleLights& term) {
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::light, {}, idleQuick());
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
      comparisonTable(compareFactor(RetentionFacts(term.records), Factor::light, {}, idleQuick()));
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
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::light, {}, idleQuick());
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
  const auto compared =
      compareFactor(RetentionFacts(term.records), Factor::school, {}, idleQuick());
  const auto& value = compared.values.front();
  REQUIRE(value.against);
  CHECK_FALSE(value.against->p);
  REQUIRE(value.p);
  CHECK(value.permuted == Permuted::children);
  CHECK(*value.p == Approx(.0033).margin(.002)); // 9,999 drawn: one standard error .0006
  const auto notes = comparisonTable(compared).notes;
  CHECK(std::ranges::any_of(notes, [](const std::string& note) {
    return note.find("permuting students among the schools") != std::string::npos;
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
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::arch, {}, idleQuick());
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
    for (const auto& note : comparisonTable(compareFactor(RetentionFacts(term.records),
                                                          Factor::light, {}, idleQuick()))
                                .notes)
      all += note + "\n";
    return all;
  };
  CHECK(notesOf(12, Serves::halfTheSchools).find("bootstrap resamples schools") !=
        std::string::npos);
  CHECK(notesOf(12, Serves::halfTheSchools).find("bootstrap resamples students") ==
        std::string::npos);
  CHECK(notesOf(12, Serves::someChildren).find("bootstrap resamples students") !=
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
  const auto compared = compareFactors(facts, factors, {}, idleQuick());
  REQUIRE(compared.size() == 2);
  CHECK(compared[0].alsoCalled == std::vector{Factor::delivery});
  CHECK(compared[0].comparedTogether == 2);
  CHECK(*compared[0].values.front().adjustedP >= *compared[0].values.front().p);
  const auto table = comparisonTable(compared[0]);
  CHECK(std::ranges::any_of(table.notes, [](const std::string& note) {
    return note.find("By two or four hands the teeth divide in the same way") != std::string::npos;
  }));
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
