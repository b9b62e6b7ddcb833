#include "reports/decay/prevention.h"

#include "base/text/text.h"
#include "reports/print/render.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

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

/// Of one tooth by the formula of docs/methods.md, section 3, written again.
double avertedByHand(double rate, double kept, double efficacy) {
  double sum = 0;
  for (int t = 1; t <= 9; ++t)
    sum += efficacy * rate * kept * (1 - 0.05 * (t - 1)) *
           std::pow(1 - rate * (1 - efficacy), t - 1) * std::pow(1 - rate, 9 - t);
  return sum;
}

/// One child new to the program, its four molars sound, and as many others checked after a year;
/// all sealed today.
struct FewChildren : SampleTerm {
  FewChildren(int checked, int whole) {
    const auto here = school("Elderbrook Middle", 131);
    const auto then = dayLastYear(here, "2025-10-14");
    const auto now = day(here, "2026-10-06");
    const auto one = olderChild(*this, here);
    screen(one, now, {found(16, Condition::sound), found(26, Condition::sound)});
    place(one, now, 16);
    for (int i = 0; i < checked; ++i)
      check(place(olderChild(*this, here), then, 36), now,
            i < whole ? followup::Held::whole : followup::Held::lost);
  }
};

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

TEST_CASE("a molar that we sealed before is left out though no one sees the sealant") {
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
  CHECK(term.totals().averted.whyNot ==
        "not enough data: no sealed tooth was assessed after a year");
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
  CHECK(text.find("never to one student") != std::string::npos);
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
  CHECK(notes.front() == "A model estimate: it applies to programs, never to one student.");
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

TEST_CASE("The range at a rate of nothing holds what is averted at every rate within its limits",
          "[case-340]") {
  // One child: the rate is anything up to some 60%. Averted rises with the rate and falls again.
  const auto totals = FewChildren(7, 5).totals();
  REQUIRE(totals.attackRate.estimate);
  CHECK(totals.attackRate.estimate->annual == 0);
  const auto limits = totals.attackRate.estimate->toRead();
  const auto kept = printedRange(*totals.retention.total.protected95);
  REQUIRE(kept);
  for (const auto& [averted, efficacy] :
       {std::pair(totals.averted.averted, 1.0), std::pair(totals.averted.cautious, 0.81)}) {
    REQUIRE(averted);
    REQUIRE(averted->interval);
    double most = 0;
    for (double rate = 0; rate <= limits.high; rate += 0.0005)
      most = std::max(most, avertedByHand(rate, kept->high, efficacy));
    CHECK(most > 1.04 * avertedByHand(limits.high, kept->high, efficacy)); // not at the limit
    CHECK(averted->interval->high == Approx(most).epsilon(.001));
    CHECK(averted->interval->low == 0);
  }
}

TEST_CASE("Nothing lost of one child's teeth, or all, is no certainty of what is averted",
          "[case-340]") {
  // Before, the range was 0 to 0: one child whose sealant was lost, and no molar affected.
  const auto totals = FewChildren(1, 0).totals();
  REQUIRE(totals.averted.averted);
  REQUIRE(totals.averted.averted->interval);
  CHECK(totals.averted.averted->averted == 0);
  CHECK(totals.averted.averted->interval->high > 0.5);
}

TEST_CASE("Scenarios stand also where the limit of the rate leaves no room for a higher risk",
          "[case-341]") {
  // One child, one of its two molars affected: the upper limit of the rate times 1.22 is above 1,
  // which no yearly risk can be. Before, the report was a blank with a full stop.
  SampleTerm term;
  const auto here = term.school("Elderbrook Middle", 131);
  const auto now = term.day(here, "2026-10-06");
  const auto one = olderChild(term, here);
  term.records.children.back().value.birth = {2019, 6}; // a year in the mouth
  term.screen(one, now, {found(16, Condition::cavitated), found(26, Condition::sound)});
  term.place(one, now, 26);
  const auto then = term.dayLastYear(here, "2025-10-14");
  for (int i = 0; i < 4; ++i)
    term.check(term.place(olderChild(term, here), then, 36), now,
               i ? followup::Held::whole : followup::Held::lost);
  const auto totals = term.totals();
  REQUIRE(totals.attackRate.estimate);
  CHECK(totals.attackRate.estimate->toRead().high > 1 / 1.22);
  const auto report = scenarios(1, totals.attackRate, totals.retention.total.protected95, {}, {});
  CHECK(report.whyNot.empty());
  REQUIRE(report.scenarios);
  for (const auto& inputs : {report.scenarios->lowInputs, report.scenarios->highInputs})
    CHECK(inputs.attackRate * inputs.relativeRiskAfterLoss <= 1);
}

TEST_CASE("Teeth that were checked, none of which could be judged, are not called unchecked",
          "[case-342]") {
  SampleTerm term;
  const auto here = term.school("Elderbrook Middle", 131);
  const auto now = term.day(here, "2026-10-06");
  const auto one = olderChild(term, here);
  term.screen(one, now, {found(16, Condition::cavitated), found(26, Condition::sound)});
  term.place(one, now, 26);
  term.check(term.place(one, term.dayLastYear(here, "2025-10-14"), 36), now,
             followup::Held::cannotAssess);
  const auto totals = term.totals();
  CHECK(totals.retention.total.examined == 1);
  CHECK(totals.averted.whyNot == "not enough data: no sealed tooth was assessed after a year");
  CHECK(protectionNote(totals.retention.total).find("none was assessed") != std::string::npos);
}
