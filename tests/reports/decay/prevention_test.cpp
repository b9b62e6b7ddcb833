#include "reports/decay/prevention.h"

#include "base/text.h"
#include "reports/print/render.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::chairside;
using namespace gk::reports;
using gk::test::found;
using gk::test::SampleTerm;

namespace {

/// Girls born in March 2016 are about 10.6 on the day, 4.5 years after the mean eruption.
roster::ChildId olderChild(SampleTerm& term, roster::SchoolId school) {
  const auto child = term.child(school);
  term.records.children.back().value.birth = {2016, 3};
  return child;
}

} // namespace

TEST_CASE("the attack rate takes never-sealed first molars that are up") {
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto day = term.day(school, "2026-10-06");
  auto unerupted = found(46, Condition::notLookedAt);
  unerupted.presence = Presence::unerupted;
  auto lostElsewhere = found(36, Condition::sound);
  lostElsewhere.occlusal.origin = Origin::other;
  term.screen(olderChild(term, school), day,
              {found(16, Condition::cavitated), found(26, Condition::sealedWhole), lostElsewhere,
               unerupted, found(17, Condition::cavitated)});
  term.screen(olderChild(term, school), day,
              {found(16, Condition::sound), found(26, Condition::restored)});
  const auto report = attackRateOf(term.records);
  REQUIRE(report.estimate);
  CHECK(report.estimate->molars == 3);
  CHECK(report.estimate->affected == 2);
  CHECK(report.estimate->children == 2);
  CHECK(report.everSealedLeftOut == 2);
  CHECK(report.notSeenLeftOut == 1);
  // 2/3 affected after t years: a = 1 - (1/3)^(1/t), with t from the approximate age less 6.1.
  const double years = roster::approximateAge({2016, 3}, test::date("2026-10-06")) - 6.1;
  CHECK(report.estimate->annual == Approx(1 - std::pow(1.0 / 3, 1 / years)));
}

TEST_CASE("a molar that we sealed before is left out though nobody sees the sealant") {
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto child = olderChild(term, school);
  term.place(child, term.dayLastYear(school, "2025-10-14"), 16);
  term.screen(child, term.day(school, "2026-10-06"), {found(16, Condition::cavitated)});
  const auto report = attackRateOf(term.records);
  CHECK_FALSE(report.estimate);
  CHECK(report.everSealedLeftOut == 1);
}

TEST_CASE("a child screened twice enters the attack rate once") {
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto child = olderChild(term, school);
  term.screen(child, term.day(school, "2026-10-20"), {found(16, Condition::cavitated)});
  term.screen(child, term.day(school, "2026-10-06"), {found(16, Condition::sound)});
  const auto report = attackRateOf(term.records);
  REQUIRE(report.estimate);
  CHECK(report.estimate->molars == 1);
  CHECK(report.estimate->affected == 0);
}

TEST_CASE("without data the averted estimate says what is missing") {
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  CHECK(term.totals().averted.whyNot == "not enough data: no permanent molar was sealed");

  const auto day = term.day(school, "2026-10-06");
  const auto child = olderChild(term, school);
  term.screen(child, day);
  term.place(child, day, 16);
  CHECK(term.totals().averted.whyNot.find("no never-sealed first molar") != std::string::npos);

  term.screen(olderChild(term, school), day,
              {found(16, Condition::cavitated), found(26, Condition::sound)});
  CHECK(term.totals().averted.whyNot == "not enough data: no sealant was checked after a year");
  CHECK(toText(termTables(term.totals())).find("not enough data") != std::string::npos);
}

TEST_CASE("the averted estimate joins this term's sealants with its checks and screenings") {
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto then = term.dayLastYear(school, "2025-10-14");
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 10; ++i) {
    const auto child = olderChild(term, school);
    term.screen(
        child, day,
        {found(16, i < 3 ? Condition::cavitated : Condition::sound), found(26, Condition::sound)});
    term.place(child, day, 26);
    term.place(child, day, 27);
    term.check(term.place(child, then, 46), day,
               i < 9 ? followup::Held::whole : followup::Held::lost);
  }
  const auto totals = term.totals();
  REQUIRE(totals.averted.averted);
  REQUIRE(totals.averted.cautious);
  CHECK(totals.averted.sealants == 20);
  CHECK(totals.averted.years == 9);
  estimates::AvertedInputs inputs{totals.attackRate.estimate->annual, 0.9, 20};
  CHECK(totals.averted.averted->averted == Approx(estimates::averted(inputs)->averted));
  CHECK(totals.averted.averted->interval);
  CHECK(totals.averted.cautious->averted < totals.averted.averted->averted);
  const auto text = toText(termTables(totals));
  CHECK(text.find("never to one child") != std::string::npos);
  CHECK(text.find("Your state practice act") != std::string::npos);
}

TEST_CASE("With no molar affected the printed range takes a child's molars as one", "[case-365]") {
  // By hand (docs/methods.md, section 2): the upper limit solves (1 - a)^(years) = .025, years one
  // for each child and not for each molar.
  SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto then = term.dayLastYear(school, "2025-10-14");
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 10; ++i) {
    const auto child = olderChild(term, school);
    term.screen(child, day,
                {found(16, Condition::sound), found(26, Condition::sound),
                 found(36, Condition::sound), found(46, Condition::sound)});
    term.place(child, day, 16);
    term.check(term.place(child, then, 17), day, i ? followup::Held::whole : followup::Held::lost);
  }
  const double years = 10 * (roster::approximateAge({2016, 3}, test::date("2026-10-06")) - 6.1);
  const double high = 1 - std::pow(.025, 1 / years);
  const auto totals = term.totals();
  REQUIRE(totals.attackRate.estimate);
  CHECK(totals.attackRate.estimate->toRead().high == Approx(high));
  CHECK(totals.attackRate.estimate->high < high / 2); // as if molars were independent
  const auto table = termTables(totals).back();
  CHECK(table.rows.front().at(1).text() == "0.0 (0.0-" + base::percent(high) + ")");

  // The range of what is averted is over both: that limit, and the upper one of retention.
  REQUIRE(totals.averted.averted);
  REQUIRE(totals.averted.averted->interval);
  const auto kept = printedRange(*totals.retention.total.protected95);
  REQUIRE(kept);
  CHECK(totals.averted.averted->interval->low == 0);
  CHECK(totals.averted.averted->interval->high ==
        Approx(estimates::averted({high, kept->high, 10})->averted));
}

TEST_CASE("A CI of cavities averted is spoken of only where there is one", "[case-365]") {
  SampleTerm term;
  const auto notes = termTables(term.totals()).back().notes;
  CHECK(notes.front() == "A model estimate: it applies to programs, never to one child.");
}

TEST_CASE("Schools that differ widen the range of the cavities averted", "[case-409]") {
  SampleTerm term;
  std::vector<estimates::Cluster> children;
  for (int s = 0; s < 10; ++s) {
    const auto here = term.school("School " + std::to_string(s), 50);
    const auto then = term.dayLastYear(here, "2025-10-14");
    const auto now = term.day(here, "2026-10-13");
    for (int c = 0; c < 12; ++c) {
      const auto child = olderChild(term, here);
      term.screen(child, now, {found(16, c % 4 ? Condition::sound : Condition::cavitated)});
      term.place(child, now, 26);
      const bool isWhole = s % 2 == 0 ? c != 0 : c % 3 == 0; // 11 of 12, and 4 of 12
      term.check(term.place(child, then, 36), now,
                 isWhole ? followup::Held::whole : followup::Held::lost);
      children.push_back({1, isWhole ? 1.0 : 0.0});
    }
  }
  const auto totals = term.totals();
  CHECK(totals.retention.total.unit == ClusterUnit::schools);
  const auto byChild = avertedOf({120, 0}, totals.attackRate,
                                 estimates::retention(children).value(), totals.averted.years);
  REQUIRE(totals.averted.averted);
  REQUIRE(byChild.averted);
  CHECK(totals.averted.averted->averted == Approx(byChild.averted->averted));
  const auto width = [](const estimates::AvertedEstimate& one) {
    return one.interval->high - one.interval->low;
  };
  CHECK(width(*totals.averted.averted) > 1.3 * width(*byChild.averted));
}
