#include "reports/compare/found_table.h"
#include "reports/compare/retention_report.h"
#include "reports/sample.h"
#include "reports/term/prevention_report.h"
#include "support/known_truth.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using followup::Held;

namespace {

/// Twenty children with two sealants each, the first twelve found.
struct HalfFound : test::SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId then = dayLastYear(here, "2025-10-14");
  roster::DayId now = day(here, "2026-10-13");

  HalfFound() {
    for (int i = 0; i < 20; ++i) {
      const auto id = child(here);
      records.children.back().value.birth = {2016, 3};
      screen(
          id, now,
          {test::found(46, i % 4 ? chairside::Condition::sound : chairside::Condition::cavitated)});
      for (const int iso : {16, 36}) {
        const auto placement = place(id, then, iso);
        records.placements.back().value.fourHanded = i < 12;
        if (i < 12) check(placement, now, i < 3 ? Held::lost : Held::whole);
      }
      place(id, now, 26);
    }
  }
};

} // namespace

TEST_CASE("Children found stand beside those not found, by what was known when they were sealed",
          "[case-190]") {
  HalfFound term;
  const auto table = foundTable(term.records, RetentionFacts(term.records));
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].at(1) == "12");
  CHECK(table.rows[1].at(1) == "8");
  CHECK(table.rows[0].at(6).text().starts_with("100.0"));
  CHECK(table.rows[1].at(6).text().starts_with("0.0"));
}

TEST_CASE("What is said of children found and not found is so of those who are due", "[case-190]") {
  const auto notesOf = [](const test::SampleTerm& term) {
    const auto table = foundTable(term.records, RetentionFacts(term.records));
    return table.notes.back();
  };
  HalfFound term;
  CHECK(notesOf(term).starts_with("The more the two lines differ"));
  const auto checks = term.records.checks;
  term.records.checks.clear();
  CHECK(notesOf(term) == "No student was found yet.");
  term.records.checks = checks;
  for (const auto& row : term.records.placements)
    if (row.value.day == term.then) term.check(row.id, term.now, Held::whole);
  CHECK(notesOf(term) == "Every student due was found.");

  // Due only later: no bounds are spoken of, as there are none.
  test::SampleTerm bare;
  const auto here = bare.school("Cobble Lantern Elementary", 142);
  bare.place(bare.child(here), bare.day(here, "2026-10-13"), 16);
  CHECK(notesOf(bare) == "No student is due for a check yet.");
  const auto followUp = [](const test::SampleTerm& of) {
    const auto tables = retentionReport(of.records);
    return tables.at(3).notes.front();
  };
  CHECK(followUp(bare) == "No sealant is due for a check yet.");
  CHECK(followUp(term).starts_with("The last two are true"));
}

TEST_CASE("What those not looked at could change reaches the teeth spared and their scenarios",
          "[case-190]") {
  HalfFound term;
  const auto totals = term.totals();
  const auto& total = totals.retention.total;
  CHECK(total.due == 40);
  CHECK(total.teethSeen == 24);
  const auto bounds = protectedBounds(total);
  REQUIRE(bounds);
  CHECK(bounds->low == Approx(18 / 40.));
  CHECK(bounds->high == Approx(34 / 40.));
  REQUIRE(totals.averted.ifNotLookedAt);
  CHECK(totals.averted.ifNotLookedAt->low ==
        Approx(totals.averted.averted->averted * bounds->low / total.protected95->estimate));
  const auto found = scenarios(20, totals.attackRate, total.protected95, {}, bounds);
  REQUIRE(found.scenarios);
  CHECK(found.scenarios->lowInputs.retentionYearOne <= bounds->low);
  CHECK(found.scenarios->highInputs.retentionYearOne >= bounds->high);
}

TEST_CASE("A sealant due in two terms counts once when they are added", "[case-191]") {
  HalfFound term; // placed on October 14, 2025: due from July 14, 2026
  CHECK(RetentionFacts(term.records).rows().front().wasDueBefore == false);
  term.dayLastYear(term.here, "2026-08-20"); // a clinic day of an earlier term, in the window
  const auto total = retentionTotals(RetentionFacts(term.records)).total;
  CHECK(total.due == 40);
  CHECK(total.dueBefore == 40);
  test::methodsSay(std::to_string(total.due) + " due, of which " + std::to_string(total.dueBefore) +
                   " were due before");

  // Its window opened after the earlier term's last day and before that term ended: that term's
  // report, which counts to its end, had it as due.
  HalfFound late;
  late.dayLastYear(late.here, "2026-06-05");
  CHECK(retentionTotals(RetentionFacts(late.records)).total.dueBefore == 0);
  late.records.earlierTermsEnd = test::date("2026-07-31");
  CHECK(retentionTotals(RetentionFacts(late.records)).total.dueBefore == 40);
}
