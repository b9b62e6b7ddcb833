#include "reports/compare/comparison_table.h"
#include "reports/compare/factor_comparison.h"

#include "estimates/compare/comparison.h"
#include "estimates/compare/shrinkage.h"
#include "reports/compare/retention_report.h"
#include "reports/records/words.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <span>

using namespace gk;
using namespace gk::reports;
using gk::followup::Held;
using gk::test::SampleTerm;

namespace {

/// One school, sealed last October and checked this October.
struct Checked : SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId then = dayLastYear(here, "2025-10-14");
  roster::DayId now = day(here, "2026-10-13");

  /// A child with one tooth; the placement is the newest, to be changed.
  chairside::Placement& one(int iso, Held held) {
    check(place(child(here), then, iso), now, held);
    return records.placements.back().value;
  }
};

const FactorValue& valueOf(const FactorComparison& compared, const std::string& label) {
  const auto at = std::ranges::find(compared.values, label,
                                    [](const FactorValue& value) { return value.line.label; });
  REQUIRE(at != compared.values.end());
  return *at;
}

std::string allNotes(const Table& table) {
  std::string all;
  for (const auto& note : table.notes)
    all += note + "\n";
  return all;
}

} // namespace

TEST_CASE("A method is compared within types of tooth") {
  Checked term;
  // Upper first molars: dam 18 of 20 whole, rolls 12 of 20. Lower: 20 of 20 and 15 of 20.
  struct Group {
    int iso;
    bool dam;
    int whole;
  };
  std::vector<estimates::Stratum> strata{{18, 2, 12, 8}, {20, 0, 15, 5}};
  for (const auto& [iso, dam, whole] :
       {Group{16, true, 18}, Group{16, false, 12}, Group{36, true, 20}, Group{36, false, 15}})
    for (int i = 0; i < 20; ++i)
      term.one(iso, i < whole ? Held::whole : Held::lost).isolation =
          dam ? chairside::Isolation::rubberDam : chairside::Isolation::cottonRolls;

  const auto compared = compareFactor(RetentionFacts(term.records), Factor::isolation);
  const auto byHand = estimates::compare(strata).value();
  REQUIRE(compared.isPair);
  const auto& rolls = valueOf(compared, "cotton rolls");
  REQUIRE(rolls.against);
  CHECK(*rolls.against->teeth.oddsRatio == Approx(1 / *byHand.oddsRatio));
  CHECK(rolls.against->children == 80);
  CHECK_FALSE(valueOf(compared, "rubber dam").against); // the same turned round
}

TEST_CASE("Contamination, holding and guards of the field are factors of their own") {
  Checked term;
  for (int i = 0; i < 8; ++i) {
    auto& placement = term.one(26, i < 5 ? Held::whole : Held::lost);
    placement.wetEvents = i % 2;
    chairside::Field field{placement.child,
                           placement.day,
                           {},
                           placement.isolation,
                           chairside::DryGuardSet::all(),
                           chairside::Holder::device,
                           chairside::Holder::device,
                           true,
                           std::nullopt,
                           placement.sealant,
                           std::nullopt,
                           false,
                           ""};
    field.tongue = i < 4 ? chairside::Holder::assistantHand : chairside::Holder::nobody;
    if (i == 0) field.guards.remove(chairside::DryGuard::noGloveTouches);
    const auto row = term.make.row(field);
    placement.field = row.id;
    term.records.fields.push_back(row);
  }
  const RetentionFacts facts(term.records);
  const auto wet = compareFactor(facts, Factor::wet);
  CHECK(valueOf(wet, "contaminated at least once").line.assessable == 4);
  CHECK(valueOf(wet, "kept dry").line.assessable == 4);
  const auto held = compareFactor(facts, Factor::holding);
  CHECK(valueOf(held, "cheek: device, tongue: assistant").line.whole == 4);
  CHECK(valueOf(held, "cheek: device, tongue: no one").line.whole == 1);
  CHECK(valueOf(compareFactor(facts, Factor::guards), "not all four").line.assessable == 1);
}

TEST_CASE("Two-handed and four-handed pairs are told apart, and few teeth hide a person") {
  Checked term;
  const auto operatorOne = term.make.row<roster::Member>(
      {"Oriel Fenwhistle", "OF", roster::Role::hygienist, "", std::nullopt, {}});
  const auto helper = term.make.row<roster::Member>(
      {"Bram Ottersley", "BO", roster::Role::dentalAssistant, "", std::nullopt, {}});
  term.records.members = {operatorOne, helper};
  for (int i = 0; i < 60; ++i) {
    auto& placement = term.one(16, i % 6 ? Held::whole : Held::lost);
    placement.placedBy = operatorOne.id;
    if (i < 40) placement.assistant = helper.id;
  }
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::pair);
  REQUIRE(compared.values.size() == 2);
  CHECK(valueOf(compared, "OF alone").line.hidden);
  CHECK_FALSE(valueOf(compared, "OF alone").funnel);
  CHECK(valueOf(compared, "OF with BO").line.assessable == 40);
  const auto table = comparisonTable(compared);
  CHECK(table.rows.front().back() == "too few teeth to show");
  CHECK(table.rows.front().at(4) == nothing);
}

TEST_CASE("Several values are adjusted for being several, and every table says its cautions") {
  Checked term;
  int made = 0;
  for (const auto method : {chairside::Isolation::cottonRolls, chairside::Isolation::rubberDam,
                            chairside::Isolation::suctionBiteBlock})
    for (int i = 0; i < 40; ++i)
      term.one(46, (i + made++) % 5 ? Held::whole : Held::part).isolation = method;
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::isolation);
  for (const auto& value : compared.values) {
    REQUIRE(value.against);
    REQUIRE(value.adjustedP);
    CHECK(*value.adjustedP >= *value.against->p);
  }
  const auto notes = allNotes(comparisonTable(compared));
  CHECK(notes.find("Observational") != std::string::npos);
  CHECK(notes.find("Small numbers are too few to judge an individual") != std::string::npos);
  CHECK(notes.find("comparisons made together") != std::string::npos);
}

TEST_CASE("The second of two is called the first in reverse only where the first is compared",
          "[case-362]") {
  const auto noteOf = [](int teethOfFirst) {
    Checked term;
    const auto one = term.make.row<roster::Member>(
        {"Anwen Fenwhistle", "AF", roster::Role::hygienist, "", std::nullopt, {}});
    const auto two = term.make.row<roster::Member>(
        {"Bram Ottersley", "BO", roster::Role::hygienist, "", std::nullopt, {}});
    term.records.members = {one, two};
    for (int i = 0; i < 40 + teethOfFirst; ++i)
      term.one(16, i % 6 ? Held::whole : Held::lost).placedBy = i < 40 ? two.id : one.id;
    const auto compared = compareFactor(RetentionFacts(term.records), Factor::placedBy);
    REQUIRE(compared.isPair);
    return allNotes(comparisonTable(compared)).find("in reverse") != std::string::npos;
  };
  CHECK(noteOf(40));
  CHECK_FALSE(noteOf(5)); // too few to be shown, so neither is compared

  Checked alone; // one school
  for (int i = 0; i < 40; ++i)
    alone.one(16, i % 6 ? Held::whole : Held::lost);
  const auto notes =
      allNotes(comparisonTable(compareFactor(RetentionFacts(alone.records), Factor::school)));
  CHECK(notes.find("Nothing is compared") != std::string::npos);
  CHECK(notes.find("Odds ratio of") == std::string::npos);
}

TEST_CASE("The same records give the same report, bootstrap and all") {
  Checked term;
  for (int i = 0; i < 50; ++i)
    term.one(16, i % 4 ? Held::whole : Held::lost).fourHanded = i % 3 != 0;
  const auto once = comparisonTable(compareFactor(RetentionFacts(term.records), Factor::delivery));
  CHECK(once == comparisonTable(compareFactor(RetentionFacts(term.records), Factor::delivery)));
}

TEST_CASE("A cohort no one has checked gives a report without a figure and without a fault") {
  Checked term;
  term.place(term.child(term.here), term.then, 16);
  const auto tables = retentionReport(term.records);
  CHECK(tables.size() == 20); // with what stands out, and the children found and not found
  for (const auto& table : tables)
    for (const auto& row : table.rows)
      CHECK(row.size() == table.columns.size());
  SampleTerm bare;
  for (const auto& table : retentionReport(bare.records))
    CHECK(table.rows.size() <= 1);
}

TEST_CASE("In a picture of one school's sealants their share is not called the program's",
          "[case-186]") {
  Checked term;
  for (int i = 0; i < 40; ++i)
    for (const int iso : {16, 36})
      term.one(iso, i % 4 ? Held::whole : Held::lost);
  const auto tables = retentionReport(term.records, {.school = term.here});
  int pictures = 0;
  for (const auto& table : std::span(tables).subspan(2)) { // behind those of all schools
    if (!table.plot) continue;
    ++pictures;
    CAPTURE(table.title);
    CHECK(std::ranges::none_of(table.plot->series, [](const auto& one) {
      return one.label.find("program") != std::string::npos;
    }));
  }
  CHECK(pictures > 0);
}

TEST_CASE("A report of one school still compares it with all the others") {
  Checked term;
  for (int i = 0; i < 40; ++i)
    term.one(16, i % 4 ? Held::whole : Held::lost);
  const auto elsewhere = term.school("Dunlin Marsh School (K-8)", 60);
  term.place(term.child(elsewhere), term.day(elsewhere, "2025-10-07"), 16);
  const auto all = retentionReport(term.records);
  const auto one = retentionReport(term.records, {.school = term.here});
  CHECK(all.at(1).rows.size() == 2);       // after what stands out
  CHECK(one.at(1).rows == all.at(1).rows); // and a note says why it is of all
  REQUIRE(one.at(3).rows.size() == 1);     // its own follow-up
  CHECK(std::ranges::find(all.at(3).rows, one.at(3).rows[0]) != all.at(3).rows.end());
}

TEST_CASE("A school's own weight goes by the teeth that its children are worth", "[case-409]") {
  // Eight schools of ten children, each child's four teeth all whole or all lost. By hand: a child
  // tells as much as one tooth, so the design effect is 4 m / (m - 1), m = 80 children.
  SampleTerm term;
  for (int s = 0; s < 8; ++s) {
    const auto here = term.school("School " + std::to_string(s), 50);
    const auto then = term.dayLastYear(here, "2025-10-14");
    const auto now = term.day(here, "2026-10-13");
    for (int c = 0; c < 10; ++c) {
      const auto child = term.child(here);
      for (const int iso : {16, 26, 36, 46})
        term.check(term.place(child, then, iso), now, c < 2 + s ? Held::whole : Held::lost);
    }
  }
  const auto compared = compareFactor(RetentionFacts(term.records), Factor::school);
  CHECK(compared.designEffect == Approx(4.0 * 80 / 79));
  std::vector<estimates::Unit> effective;
  std::vector<estimates::Unit> counted;
  for (int s = 0; s < 8; ++s) {
    effective.push_back({40 / (4.0 * 80 / 79), 4 * (2.0 + s) / (4.0 * 80 / 79)});
    counted.push_back({40, 4 * (2.0 + s)});
  }
  const auto rightly = estimates::shrunken(effective).value();
  const auto wrongly = estimates::shrunken(counted).value();
  REQUIRE(compared.values.size() == 8);
  for (std::size_t s = 0; s < 8; ++s) {
    REQUIRE(compared.values[s].shrunken);
    CHECK(compared.values[s].shrunken->ownWeight == Approx(rightly.units[s].ownWeight));
    CHECK(compared.values[s].shrunken->ownWeight < wrongly.units[s].ownWeight - .1);
  }
}
