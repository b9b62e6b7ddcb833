#include "reports/compare/factor_comparison.h"
#include "reports/retention/retention_totals.h"

#include "reports/print/render.h"
#include "reports/retention/retention_table.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::chairside;
using namespace gk::reports;
using gk::followup::CannotAssess;
using gk::followup::Held;
using gk::test::SampleTerm;

namespace {

/// One school with `placed` last October and a day to check them this October.
struct OneSchool : SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId then = dayLastYear(here, "2025-10-14");
  roster::DayId now = day(here, "2026-10-13");
};

std::string notesOf(const Table& table) {
  std::string all;
  for (const auto& note : table.notes)
    all += note + "\n";
  return all;
}

} // namespace

TEST_CASE("a check counts where the sealant was placed when the child has moved", "[case-57]") {
  OneSchool term;
  const auto other = term.school("Alder Hollow Elementary", 118);
  const auto child = term.child(other); // at Alder Hollow now, sealed at Cobble Lantern
  const auto placement = term.place(child, term.then, 16);
  term.check(placement, term.day(other, "2026-10-20"), Held::whole);

  const auto totals = retentionTotals(RetentionFacts(term.records));
  REQUIRE(totals.schools.size() == 2);
  CHECK(totals.schools[0].label == "Alder Hollow Elementary");
  CHECK(totals.schools[0].placed == 0);
  CHECK(totals.schools[0].examined == 0);
  CHECK(totals.schools[0].checkedHere == 1);
  CHECK(totals.schools[1].placed == 1);
  CHECK(totals.schools[1].whole == 1);
  CHECK(totals.schools[1].checkedHere == 0);
}

TEST_CASE("a tooth crowned or gone since is no lost sealant, a filled surface is a failed one",
          "[case-58]") {
  OneSchool term;
  const auto child = term.child(term.here);
  auto& filled = term.check(term.place(child, term.then, 16), term.now, Held::cannotAssess);
  filled.why = CannotAssess::restoredOver;
  filled.health = followup::ToothHealth::restored;
  term.check(term.place(child, term.then, 26), term.now, Held::cannotAssess).why =
      CannotAssess::extracted;
  term.check(term.place(child, term.then, 36), term.now, Held::whole);

  const auto total = retentionTotals(RetentionFacts(term.records)).total;
  CHECK(total.examined == 3);
  CHECK(total.assessable == 2);
  CHECK(total.lost == 1);
  CHECK(total.filledOver == 1);
  CHECK(total.cannotAssess == 1);
  CHECK(total.why.at(CannotAssess::extracted) == 1);
  CHECK(total.filledSince == 1);
}

TEST_CASE("repairs and reseals stay out and the rate says first placements only", "[case-60]") {
  OneSchool term;
  const auto child = term.child(term.here);
  const auto first = term.place(child, term.then, 16);
  const auto repair =
      term.place(child, term.dayLastYear(term.here, "2025-11-04"), 16, PlacementType::repair);
  const auto reseal = term.place(child, term.then, 26, PlacementType::reseal);
  term.check(first, term.now, Held::part);
  term.check(repair, term.now, Held::whole);
  term.check(reseal, term.now, Held::whole);

  const auto totals = term.totals();
  CHECK(totals.retention.total.placed == 1);
  CHECK(totals.retention.total.part == 1);
  CHECK(totals.retention.total.whole == 0);
  CHECK(notesOf(termTables(totals)[3]).find("First placements only") == 0);

  RetentionOptions all;
  all.firstPlacementsOnly = false;
  CHECK(retentionTotals(RetentionFacts(term.records, all)).total.placed == 2);
}

TEST_CASE("the share of children found stands beside the rate", "[case-61]") {
  OneSchool term;
  for (int i = 0; i < 4; ++i) {
    const auto child = term.child(term.here);
    const auto placement = term.place(child, term.then, 16);
    term.place(child, term.then, 26);
    if (i == 0) term.check(placement, term.now, Held::whole);
  }
  const auto totals = term.totals();
  const auto& total = totals.retention.total;
  CHECK(total.placed == 8);
  CHECK(total.due == 8);
  CHECK(total.childrenDue == 4);
  CHECK(total.childrenFound == 1);
  const auto table = termTables(totals)[3];
  CHECK(table.rows.back()[3] == "1 of 4");
  CHECK(table.rows.back()[4] == "25.0 (unstable)");
  CHECK(notesOf(table).find("Found students only") != std::string::npos);
}

TEST_CASE("Of children not found the retention table speaks only where there are some",
          "[case-61]") {
  const auto notesOfFound = [](int found) {
    OneSchool term;
    for (int i = 0; i < 4; ++i) {
      const auto placement = term.place(term.child(term.here), term.then, 16);
      if (i < found) term.check(placement, term.now, Held::whole);
    }
    return notesOf(termTables(term.totals())[3]);
  };
  CHECK(notesOfFound(3).find("those who were not found") != std::string::npos);
  CHECK(notesOfFound(4).find("not found") == std::string::npos);
  CHECK(notesOfFound(4).find("Fully retained, % is of assessable.") != std::string::npos);
}

TEST_CASE("a sealant is due from nine months and leaves the cohort after fifteen") {
  SampleTerm term; // the term runs from 8 September to December 18, 2026
  const auto school = term.school("Alder Hollow Elementary", 118);
  const auto child = term.child(school);
  term.place(child, term.dayLastYear(school, "2025-06-01"), 16); // shut before the term
  term.place(child, term.dayLastYear(school, "2025-06-08"), 26); // its last day is the first
  term.place(child, term.dayLastYear(school, "2026-03-18"), 36); // opens on the last day
  term.place(child, term.dayLastYear(school, "2026-03-19"), 46); // opens after the term
  term.records.asOf = test::date("2026-11-17");
  const auto before = retentionTotals(RetentionFacts(term.records)).total;
  CHECK(before.placed == 2);
  CHECK(before.due == 1);
  const auto saysNotDue = [&] {
    return notesOf(termTables(term.totals()).at(3))
               .find("Placed includes 1 sealant not due yet.") != std::string::npos;
  };
  CHECK(saysNotDue());
  term.records.asOf = test::date("2026-12-18");
  CHECK(retentionTotals(RetentionFacts(term.records)).total.due == 2);
  CHECK_FALSE(saysNotDue());
}

TEST_CASE("short-term checks and checks outside the window do not enter the one-year rate") {
  OneSchool term;
  const auto child = term.child(term.here);
  const auto placement = term.place(child, term.then, 16);
  term.check(placement, term.now, Held::lost).kind = followup::CheckKind::shortTermSample;
  term.check(placement, term.dayLastYear(term.here, "2025-12-01"), Held::lost);
  CHECK(retentionTotals(RetentionFacts(term.records)).total.examined == 0);
}

TEST_CASE("a sealant checked in its window before the term is no longer due") {
  OneSchool term;
  const auto child = term.child(term.here);
  term.check(term.place(child, term.then, 16), term.dayLastYear(term.here, "2026-08-20"),
             Held::whole);
  CHECK(retentionTotals(RetentionFacts(term.records)).total.placed == 0);
}

TEST_CASE("of two checks in the window the first that could judge counts") {
  OneSchool term;
  const auto child = term.child(term.here);
  const auto placement = term.place(child, term.then, 16);
  term.check(placement, term.now, Held::cannotAssess);
  term.check(placement, term.day(term.here, "2026-10-20"), Held::part);
  term.check(placement, term.day(term.here, "2026-10-27"), Held::whole);
  const auto total = retentionTotals(RetentionFacts(term.records)).total;
  CHECK(total.examined == 1);
  CHECK(total.part == 1);
  CHECK(total.childrenFound == 1);
}

TEST_CASE("teeth cluster in schools once four are checked, lines by light too", "[case-414]") {
  SampleTerm term;
  const auto addSchool = [&](int n) {
    const auto school = term.school("School " + std::to_string(n), 50);
    const auto then = term.dayLastYear(school, "2025-10-14");
    const auto now = term.day(school, "2026-10-13");
    for (int i = 0; i < 3; ++i) {
      const auto child = term.child(school);
      for (int iso : {16, 26})
        term.check(term.place(child, then, iso), now,
                   i == 0 && n % 2 == 0 ? Held::lost : Held::whole);
    }
  };
  const auto totalNow = [&] { return retentionTotals(RetentionFacts(term.records)).total; };
  addSchool(0);
  const auto one = totalNow();
  CHECK(one.unit == ClusterUnit::children);
  CHECK_FALSE(one.isSchoolPlanned);
  CHECK(rangeNote({one}).find("Two or three schools") == std::string::npos);
  addSchool(1);
  addSchool(2);
  const auto three = totalNow();
  CHECK(three.unit == ClusterUnit::children);
  CHECK(three.isSchoolPlanned);
  REQUIRE(three.whole95);
  CHECK(three.whole95->clusters == 9);
  CHECK(three.whole95->designEffect > 1.5); // both teeth of a child share their fate
  CHECK(rangeNote({three}).find("Two or three schools") != std::string::npos);
  CHECK(rangeNote({three}).find("4 or more schools") == std::string::npos);
  addSchool(3);
  const auto four = totalNow();
  CHECK(four.unit == ClusterUnit::schools);
  CHECK_FALSE(four.isSchoolPlanned);
  CHECK(four.whole95->clusters == 4);
  CHECK(rangeNote({four}).find("4 or more schools") != std::string::npos);
  // And below the term's table, in which the total stands.
  CHECK(toText(termTables(termTotals(term.records))).find("Of 4 or more schools, they allow") !=
        std::string::npos);
  for (int n = 4; n < 10; ++n)
    addSchool(n);
}

TEST_CASE("Why a total has children as clusters is said as it is", "[case-414]") {
  OneSchool term;
  for (int i = 0; i < 12; ++i)
    term.check(term.place(term.child(term.here), term.then, 16), term.now,
               i ? Held::whole : Held::lost);
  const auto clusters = [&] { return notesOf(termTables(term.totals()).at(3)); };
  const std::string ofOne = "Clusters of the total: students, as all assessed were placed at one "
                            "school.";
  CHECK(clusters().find(ofOne) != std::string::npos);
  const auto other = term.school("Alder Hollow Elementary", 118);
  const auto then = term.dayLastYear(other, "2025-10-14");
  const auto now = term.day(other, "2026-10-13");
  const auto second = term.place(term.child(other), then, 16);
  CHECK(clusters().find(ofOne) != std::string::npos); // none of it was assessed
  term.check(second, now, Held::whole);
  CHECK(clusters().find(ofOne) == std::string::npos);
  CHECK(clusters().find("with at least a planned likeness within schools") != std::string::npos);
}

TEST_CASE("a light of ten schools has schools as clusters, and one school its children",
          "[case-410]") {
  SampleTerm term;
  for (int n = 0; n < 10; ++n) {
    const auto school = term.school("School " + std::to_string(n), 50);
    const auto then = term.dayLastYear(school, "2025-10-14");
    const auto now = term.day(school, "2026-10-13");
    for (int i = 0; i < 6; ++i)
      term.check(term.place(term.child(school), then, 16), now,
                 i < (n % 2 == 0 ? 6 : 2) ? Held::whole : Held::lost);
  }
  const RetentionFacts facts(term.records);
  const auto total = retentionTotals(facts).total;
  const auto lights = retentionBy(facts, Factor::light);
  REQUIRE(lights.size() == 1);
  for (const auto& line : {lights.front(), retentionLine(facts)}) {
    CHECK(line.unit == ClusterUnit::schools);
    CHECK(line.whole95->clusters == 10);
    CHECK(line.whole95->toRead->range.low == total.whole95->toRead->range.low);
    CHECK(line.whole95->toRead->range.high == total.whole95->toRead->range.high);
  }
  Choice here;
  here.of(Factor::school) = facts.rows().front().at(Factor::school);
  CHECK(retentionLine(facts, here).unit == ClusterUnit::children);
  for (const auto& line : retentionBy(facts, Factor::light, here))
    CHECK(line.unit == ClusterUnit::children);
  for (const auto& line : retentionBy(facts, Factor::school))
    CHECK(line.unit == ClusterUnit::children);
  // The funnel's limits stay those of the children: by hand 60 / 59, one tooth each.
  CHECK(compareFactor(facts, Factor::school).designEffect == Approx(60.0 / 59));
  CHECK(total.whole95->designEffect > 2);
}

TEST_CASE("whole or part is offered beside whole") {
  OneSchool term;
  for (int i = 0; i < 4; ++i)
    term.check(term.place(term.child(term.here), term.then, 16), term.now,
               i == 0   ? Held::part
               : i == 1 ? Held::lost
                        : Held::whole);
  const auto total = retentionTotals(RetentionFacts(term.records)).total;
  REQUIRE(total.whole95);
  CHECK(total.whole95->estimate == Approx(0.5));
  CHECK(total.wholeOrPart95->estimate == Approx(0.75));
}

TEST_CASE("three steps lead from a school to the light that failed") {
  OneSchool term;
  const auto good =
      term.make.row<kit::Light>({"L-1", kit::LightType::led, {0}, {1080}, true, "M-1"});
  const auto weak =
      term.make.row<kit::Light>({"L-2", kit::LightType::led, {0}, {1120}, true, "M-1"});
  term.records.lights = {good, weak};
  for (int i = 0; i < 4; ++i) {
    const auto placement = term.place(term.child(term.here), term.then, i < 2 ? 16 : 36);
    term.records.placements.back().value.light = i < 2 ? weak.id : good.id;
    term.check(placement, term.now, i < 2 ? Held::lost : Held::whole);
  }
  const auto elsewhere = term.school("Alder Hollow Elementary", 118);
  term.place(term.child(elsewhere), term.dayLastYear(elsewhere, "2025-10-15"), 16);

  const RetentionFacts facts(term.records);
  Choice here;
  here.of(Factor::school) = facts.codeOf(term.here);
  const auto lights = retentionBy(facts, Factor::light, here);
  REQUIRE(lights.size() == 2);
  CHECK(lights[0].label == "L-1");
  CHECK(lights[0].whole == 2);
  CHECK(lights[1].label == "L-2");
  CHECK(lights[1].lost == 2);
  CHECK(retentionBy(facts, Factor::light).size() == 3); // with "no light" elsewhere
  CHECK(retentionBy(facts, Factor::arch, here).front().label == "lower");
  CHECK(retentionBy(facts, Factor::delivery, here).front().label == "four-handed");
}

TEST_CASE("an operator with fewer than thirty teeth is not shown") {
  OneSchool term;
  const auto member = [&](const std::string& initials) {
    const auto row =
        term.make.row<roster::Member>({initials, initials, roster::Role::hygienist, "", {}, {}});
    term.records.members.push_back(row);
    return row.id;
  };
  const auto often = member("TQ");
  const auto seldom = member("OF");
  for (int i = 0; i < 59; ++i) {
    const auto placement = term.place(term.child(term.here), term.then, 16);
    term.records.placements.back().value.placedBy = i < 30 ? often : seldom;
    term.check(placement, term.now, Held::whole);
  }
  const auto lines = retentionBy(RetentionFacts(term.records), Factor::placedBy);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].label == "OF");
  CHECK(lines[0].hidden);
  CHECK(lines[0].placed == 0);
  CHECK_FALSE(lines[0].whole95);
  CHECK_FALSE(lines[1].hidden);
  const auto table = retentionTable("By operator", lines);
  CHECK(table.rows[0][11] == "–");
  CHECK(table.rows[0].size() == table.columns.size());
  CHECK(notesOf(table).find("without rank") != std::string::npos);
}

TEST_CASE("a late check after the term ended is next term's work and the placement's cohort",
          "[case-84]") {
  OneSchool term;
  const auto child = term.child(term.here);
  const auto placement = term.place(child, term.then, 16); // October 14, 2025
  const auto late = term.day(term.here, "2027-01-12");     // within 15 months
  const auto spring = term.make.id<roster::TermId>();
  term.records.days.back().value.term = spring;
  term.check(placement, late, Held::part);

  // The fall's report stands as it was issued.
  const auto autumn = retentionTotals(RetentionFacts(term.records));
  CHECK(autumn.total.due == 1);
  CHECK(autumn.total.examined == 0);

  auto records = term.records;
  records.id = spring;
  records.term = {"Spring 2027", gk::test::date("2027-01-05"), gk::test::date("2027-06-11"), {}};
  records.asOf = gk::test::date("2027-02-01");
  const auto next = retentionTotals(RetentionFacts(records));
  REQUIRE(next.schools.size() == 1);
  CHECK(next.schools[0].placed == 1);
  CHECK(next.schools[0].part == 1);
  CHECK(next.schools[0].checkedHere == 1);
}
