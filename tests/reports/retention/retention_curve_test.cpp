#include "reports/compare/curve_table.h"
#include "reports/retention/retention_curve.h"

#include "reports/compare/retention_report.h"
#include "reports/sample.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using estimates::SpellState;
using followup::CannotAssess;
using followup::Held;
using gk::test::SampleTerm;

namespace {

struct TwoYears : SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId placed = dayLastYear(here, "2025-01-14");
  roster::DayId early = dayLastYear(here, "2025-07-15");
  roster::DayId late = day(here, "2026-10-13");

  chairside::PlacementId one(int iso = 16) { return place(child(here), placed, iso); }
};

} // namespace

TEST_CASE("A sealant fails between the last check that saw it whole and the first that did not") {
  TwoYears term;
  for (int i = 0; i < 4; ++i) {
    const auto id = term.one();
    term.check(id, term.early, Held::whole).kind = followup::CheckKind::opportunistic;
    term.check(id, term.late, i == 0 ? Held::lost : Held::whole);
  }
  const auto curve = retentionCurve(term.records);
  REQUIRE(curve.curve);
  // 182 days and 637 days.
  CHECK(curve.lastCheck == Approx(637 / 365.25));
  CHECK(curve.curve->survivalAt(0.49).low == 1);
  CHECK(curve.curve->survivalAt(1).low == Approx(.75));
  CHECK(curve.curve->survivalAt(1).high == 1);
  CHECK(curve.curve->survivalAt(1.745).high == Approx(.75));
}

TEST_CASE("A part counts as failed or as kept, as asked") {
  TwoYears term;
  for (int i = 0; i < 4; ++i)
    term.check(term.one(), term.late, i < 2 ? Held::part : Held::whole);
  CHECK(retentionCurve(term.records).curve->survivalAt(1.745).high == Approx(.5));
  CurveOptions kept;
  kept.partFails = false;
  CHECK(retentionCurve(term.records, kept).curve->survivalAt(1.745).high == 1);
}

TEST_CASE("A reseal ends the old spell and begins its own") {
  TwoYears term;
  const auto child = term.child(term.here);
  const auto first = term.place(child, term.placed, 16);
  term.check(first, term.early, Held::whole);
  const auto second = term.place(child, term.early, 16, chairside::PlacementType::reseal);
  term.check(second, term.late, Held::whole);
  // Entered under the old placement by mistake: it says nothing of it any more.
  term.check(first, term.late, Held::whole);
  const auto curve = retentionCurve(term.records);
  CHECK(curve.placements == 2);
  CHECK(curve.ends.count(SpellState::replaced) == 1);
  CHECK(curve.ends.wholeAfterEnd() == 1);
}

TEST_CASE("A crowned or extracted tooth is no failure, and is one in the worst case", "[case-58]") {
  TwoYears term;
  for (int i = 0; i < 4; ++i) {
    const auto id = term.one();
    term.check(id, term.early, Held::whole);
    auto& check = term.check(id, term.late, i == 0 ? Held::cannotAssess : Held::whole);
    if (i == 0) check.why = CannotAssess::extracted;
  }
  const auto usual = retentionCurve(term.records);
  CHECK(usual.ends.count(SpellState::extracted) == 1);
  CHECK(usual.curve->survivalAt(1.745).high == 1);
  CurveOptions worst;
  worst.ends = estimates::EndReading::failedByThen;
  CHECK(retentionCurve(term.records, worst).curve->survivalAt(1.745).high == Approx(.75));
}

TEST_CASE("Nothing after the date of the report counts, and nothing is said without a check") {
  TwoYears term;
  term.check(term.one(), term.late, Held::lost);
  term.records.asOf = test::date("2026-10-12");
  const auto curve = retentionCurve(term.records);
  CHECK_FALSE(curve.curve);
  const auto table = curveTable(curve, curve, curve);
  CHECK(table.rows.empty());
  CHECK(table.notes.front() == "No check has assessed a sealant yet.");
}

TEST_CASE("The curve can be that of one school") {
  TwoYears term;
  const auto other = term.school("Alder Hollow Elementary", 118);
  const auto day = term.dayLastYear(other, "2025-01-15");
  term.check(term.one(), term.late, Held::lost);
  term.check(term.place(term.child(other), day, 16), term.late, Held::whole);
  CHECK(retentionCurve(term.records).placements == 2);
  CHECK(retentionCurve(term.records, {}, other).placements == 1);
  CHECK(retentionCurve(term.records, {}, other).curve->failed == 0);
}

TEST_CASE("The curve says nothing of an age at which no one looked", "[case-185]") {
  // Truth by construction: all looks between day 329 and day 400; what was lost by day 400 may have
  // been lost at any age, so half a year has no figure. Before: 100.0 % at half a year.
  SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto placed = term.dayLastYear(here, "2025-10-14");
  const auto first = term.day(here, "2026-09-08"); // day 329
  const auto last = term.day(here, "2026-11-18");  // day 400
  for (int i = 0; i < 40; ++i) {
    const auto id = term.place(term.child(here), placed, 16);
    term.check(id, i % 2 ? first : last, i % 10 == 0 ? Held::lost : Held::whole);
  }
  const auto curve = retentionCurve(term.records);
  REQUIRE(curve.curve);
  CHECK(curve.curve->survivalAt(.5).high == 1); // what the likelihood alone would print
  REQUIRE_FALSE(curve.readings.empty());
  CHECK(curve.readings.front().year == 1);
  // No one looked between the two days: at a year the curve lies between its values there.
  CHECK(curve.readings.front().survival.low <= .9);
  CHECK(curve.readings.front().survival.high >= curve.readings.front().survival.low);
  CHECK(curve.readings.front().followed == 20);
  REQUIRE(curve.readings.front().band);
  const auto table = curveTable(curve, curve, curve);
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0].size() == table.columns.size());
  std::string notes;
  for (const auto& note : table.notes)
    notes += note + "\n";
  CHECK(notes.find("No check assessed a sealant before 0.9 years or after 1.1") !=
        std::string::npos);
  CHECK(notes.find("at 1 school") != std::string::npos);
  CHECK(notes.find("not from time") == std::string::npos); // one school cannot be mistaken for time
}

TEST_CASE("Where all looks lie between two ages of the table it says why it has no figure",
          "[case-185]") {
  SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto placed = term.dayLastYear(here, "2025-10-14");
  const auto now = term.day(here, "2026-10-20"); // a year and six days
  for (int i = 0; i < 10; ++i)
    term.check(term.place(term.child(here), placed, 16), now, i ? Held::whole : Held::lost);
  const auto says = [&] {
    const auto curve = retentionCurve(term.records);
    const auto table = curveTable(curve, curve, curve);
    return std::pair(table.rows.size(), std::ranges::any_of(table.notes, [](const auto& note) {
                       return note.starts_with("None of the ages at which the curve is read lies");
                     }));
  };
  CHECK(says() == std::pair(std::size_t{0}, true));
  const auto before = term.day(here, "2026-10-06");
  term.check(term.place(term.child(here), placed, 16), before, Held::whole);
  CHECK(says() == std::pair(std::size_t{1}, false));
}

TEST_CASE("The curve names its cohort, its kinds of looks, and schools where there are several",
          "[case-185]") {
  TwoYears term;
  const auto other = term.school("Alder Hollow Elementary", 118);
  const auto id = term.place(term.child(other), term.dayLastYear(other, "2025-02-11"), 16);
  term.check(id, term.late, Held::whole).kind = followup::CheckKind::opportunistic;
  term.check(term.one(), term.late, Held::whole);
  const auto curve = retentionCurve(term.records);
  const auto table = curveTable(curve, curve, curve);
  std::string notes;
  for (const auto& note : table.notes)
    notes += note + "\n";
  CHECK(notes.find("long-term 1, opportunistic 1") != std::string::npos);
  CHECK(notes.find("at 2 schools") != std::string::npos);
  CHECK(notes.find("a step may come from a school") != std::string::npos);
  CHECK(notes.find("Not all were planned (opportunistic)") != std::string::npos);
}

TEST_CASE("A reseal is no look: the curve says nothing of its age", "[case-363]") {
  // Truth by construction: no one looked before a year; of 40 sealants three were lost by then, and
  // one more was sealed again at half a year without a look. At half a year 36 to 39 were whole.
  SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto placed = term.dayLastYear(here, "2025-10-14");
  const auto half = term.dayLastYear(here, "2026-03-17"); // .42 years
  const auto year = term.day(here, "2026-10-13");
  const auto later = term.day(here, "2026-10-20");
  for (int i = 0; i < 40; ++i) {
    const auto id = term.child(here);
    const auto first = term.place(id, placed, 16);
    if (i == 0)
      term.place(id, half, 16, chairside::PlacementType::reseal);
    else
      term.check(first, i % 2 ? year : later, i < 4 ? Held::lost : Held::whole);
  }
  const auto curve = retentionCurve(term.records);
  REQUIRE(curve.curve);
  // What the likelihood alone would print: all failures at the one early time.
  CHECK(curve.curve->survivalAt(.5).high == Approx(.9));
  REQUIRE(curve.readings.size() == 1);
  CHECK(curve.readings.front().year == 1);

  SampleTerm unlooked; // a reseal and a look that could not judge: no curve at all
  const auto there = unlooked.school("Cobble Lantern Elementary", 142);
  const auto then = unlooked.dayLastYear(there, "2025-10-14");
  const auto id = unlooked.child(there);
  const auto first = unlooked.place(id, then, 16);
  const auto again = unlooked.day(there, "2026-10-13");
  unlooked.check(first, again, Held::cannotAssess);
  unlooked.place(id, again, 16, chairside::PlacementType::reseal);
  const auto none = retentionCurve(unlooked.records);
  CHECK_FALSE(none.curve);
  CHECK(curveTable(none, none, none).rows.empty());
}

TEST_CASE("The first and last check are rounded outward, and unplanned kinds named as they are",
          "[case-363]") {
  const auto notesOf = [](const std::string& now, std::optional<followup::CheckKind> unplanned) {
    SampleTerm term;
    const auto here = term.school("Cobble Lantern Elementary", 142);
    const auto placed = term.dayLastYear(here, "2025-10-14");
    for (int i = 0; i < 4; ++i) {
      auto& check = term.check(term.place(term.child(here), placed, 16), term.day(here, now),
                               i ? Held::whole : Held::lost);
      if (unplanned) check.kind = *unplanned;
    }
    const auto curve = retentionCurve(term.records);
    std::string all;
    for (const auto& note : curveTable(curve, curve, curve).notes)
      all += note + "\n";
    return all;
  };
  // 350 days are .958 years: "before 1.0" would be false.
  CHECK(notesOf("2026-09-29", {}).find("before 0.9 years or after 1.0") != std::string::npos);
  CHECK(notesOf("2026-09-29", {}).find("Not all were planned") == std::string::npos);
  const auto own = notesOf("2026-09-29", followup::CheckKind::opportunistic);
  CHECK(own.find("Not all were planned (") != std::string::npos);
  CHECK(own.find("riggered") == std::string::npos);
}

namespace {

std::string curveNotes(const RetentionCurve& curve) {
  std::string all;
  for (const auto& note : curveTable(curve, curve, curve).notes)
    all += note + "\n";
  return all;
}

/// `schools` schools of 12 children each, looked at shortly before and after a year, at either look
/// one sealant of three lost.
RetentionCurve schoolsCurve(int schools) {
  SampleTerm term;
  for (int school = 0; school < schools; ++school) {
    const auto here = term.school("School " + std::to_string(school), 100);
    const auto placed = term.dayLastYear(here, "2025-10-14");
    const auto soon = term.day(here, "2026-10-01");
    const auto late = term.day(here, "2026-10-28");
    for (int i = 0; i < 12; ++i)
      term.check(term.place(term.child(here), placed, 16), i % 2 ? soon : late,
                 i % 3 ? Held::whole : Held::lost);
  }
  return retentionCurve(term.records);
}

} // namespace

TEST_CASE("The words of the band say what it resamples", "[case-513]") {
  const auto one = curveNotes(schoolsCurve(1));
  CHECK(one.find("The band resamples students") != std::string::npos);
  CHECK(one.find("No band") == std::string::npos);
  const auto two = schoolsCurve(2);
  CHECK(curveNotes(two).find("No band is given: how much schools differ hardly "
                             "shows in 2 schools.") != std::string::npos);
  CHECK(curveNotes(two).find("The band resamples") == std::string::npos);
  REQUIRE_FALSE(two.readings.empty());
  CHECK_FALSE(two.readings.front().band);
  const auto five = schoolsCurve(5);
  CHECK(five.units == estimates::BandUnits::schools);
  CHECK(curveNotes(five).find("The band resamples schools. They are few") != std::string::npos);
  const auto many = curveNotes(schoolsCurve(10));
  CHECK(many.find("The band resamples schools.\n") != std::string::npos);
}

TEST_CASE("Beside an exact limit stands of how many children it is", "[case-512]") {
  // Truth by construction: 5 of 5 whole at half a year; 60 others looked at a year later alone, of
  // whom 6 had failed. The limit is .025^(1/5) = 47.8 %; before, with the 54 counted, 93.9 %.
  SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto placed = term.dayLastYear(here, "2025-04-15");
  const auto half = term.dayLastYear(here, "2025-10-14");
  const auto later = term.day(here, "2026-10-13");
  for (int i = 0; i < 65; ++i)
    term.check(term.place(term.child(here), placed, 16), i < 5 ? half : later,
               i < 59 ? Held::whole : Held::lost);
  CurveOptions options;
  options.years = {.45};
  const auto curve = retentionCurve(term.records, options);
  REQUIRE(curve.readings.empty()); // before the first look
  options.years = {182 / 365.25};
  const auto at = retentionCurve(term.records, options);
  REQUIRE(at.readings.size() == 1);
  REQUIRE(at.readings.front().isExactLimit);
  CHECK(at.readings.front().settled == 5);
  const auto cell = curveTable(at, at, at).rows.at(0).at(2).text();
  CHECK(cell == "47.8-100.0, exact limit, 5 students checked then");
  CHECK(curveNotes(at).find("no student for being found fully retained at a later one") !=
        std::string::npos);
}

TEST_CASE("Sealants too young to have been looked at are in no figure of the curve", "[case-514]") {
  // An old cohort of 8, looked at at a year, and one of 30 placed this month: one of these was
  // sealed again already, whose failure would be known where the others' was not.
  SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto placed = term.dayLastYear(here, "2025-10-14");
  const auto now = term.day(here, "2026-10-13");
  for (int i = 0; i < 8; ++i)
    term.check(term.place(term.child(here), placed, 16), now, i ? Held::whole : Held::lost);
  const auto old = retentionCurve(term.records);
  CHECK(old.tooYoung == 0);
  CHECK(curveNotes(old).find("too recently") == std::string::npos);
  const auto soon = term.day(here, "2026-10-20");
  for (int i = 0; i < 30; ++i) {
    const auto child = term.child(here);
    term.place(child, now, 16);
    if (i == 0) term.place(child, soon, 16, chairside::PlacementType::reseal);
  }
  const auto both = retentionCurve(term.records);
  CHECK(both.placements == 8);
  CHECK(both.tooYoung == 31);
  CHECK(both.lastPlaced == old.lastPlaced);
  CHECK(both.ends.count(SpellState::failed) == 1);
  CHECK(both.curve->intervals.size() == old.curve->intervals.size());
  CHECK(curveNotes(both).find("Of 8 sealants: ") != std::string::npos);
  CHECK(curveNotes(both).find("31 placed too recently to have been looked at") !=
        std::string::npos);
}
