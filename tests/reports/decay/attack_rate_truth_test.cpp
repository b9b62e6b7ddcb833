// Terms whose attack rate is known by construction (own simulation, nothing of the program in it).

#include "reports/decay/prevention.h"
#include "reports/print/render.h"
#include "reports/sample.h"
#include "reports/term/term_tables.h"
#include "support/known_truth.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace gk;
using namespace gk::reports;
using chairside::Condition;
using chairside::Presence;

namespace {

/// Girls whose first molars came through at 6.1 years, each affected with chance 7 % a year. Some
/// came last year already: what was sound then was sealed, and they are screened again.
struct Returners : test::SampleTerm {
  static constexpr double rate = .07;
  roster::SchoolId here = school("Alder Hollow Elementary", 400);
  roster::DayId then = dayLastYear(here, "2025-10-06");
  roster::DayId now = day(here, "2026-10-06");
  std::mt19937_64 random{170};

  bool chance(double p) { return static_cast<double>(random() >> 11U) * 0x1p-53 < p; }

  double yearsUp(int birthYear, const std::string& on) {
    return roster::approximateAge({birthYear, 3}, test::date(on)) - 6.1;
  }

  void fill(int children, double returning) {
    for (int i = 0; i < children; ++i) {
      const auto id = child(here);
      const int born = 2015 + i % 4;
      records.children.back().value.birth = {born, 3};
      const bool isBack = chance(returning) && yearsUp(born, "2025-10-06") > .5;
      std::vector<chairside::ToothFinding> last;
      std::vector<chairside::ToothFinding> today;
      std::vector<int> toSeal;
      for (const int iso : {16, 26, 36, 46}) {
        const double before = yearsUp(born, "2025-10-06");
        const double years = yearsUp(born, "2026-10-06");
        if (!isBack) {
          const bool isBad = chance(1 - std::pow(1 - rate, years));
          today.push_back(test::found(iso, isBad ? Condition::cavitated : Condition::sound));
          continue;
        }
        const bool wasBad = chance(1 - std::pow(1 - rate, before));
        last.push_back(test::found(iso, wasBad ? Condition::cavitated : Condition::sound));
        today.push_back(test::found(iso, wasBad ? Condition::restored : Condition::sealedWhole));
        if (!wasBad) toSeal.push_back(iso);
      }
      if (isBack) screen(id, then, last);
      for (const int iso : toSeal)
        place(id, then, iso);
      screen(id, now, today);
    }
  }
};

} // namespace

TEST_CASE("Children who return do not move the attack rate", "[case-177]") {
  std::vector<std::string> found;
  for (const double returning : {0.0, .25, .50, .75}) {
    CAPTURE(returning);
    Returners term;
    term.fill(6000, returning);
    const auto report = attackRateOf(term.records);
    REQUIRE(report.estimate);
    // 6,000 new molars at least, some 1,000 of them affected: one standard error under .0025.
    CHECK(report.estimate->annual == Approx(Returners::rate).margin(.006));
    CHECK((report.seenBefore > 0) == (returning > 0));
    CHECK((toText(termTables(term.totals())).find("had screened them before:") !=
           std::string::npos) == (returning > 0));
    if (returning > 0) found.push_back(base::percent(report.estimate->annual));
  }
  test::methodsSay(base::join(found, ", ") + "%");
}

TEST_CASE("A first molar extracted is affected, one that never formed is not", "[case-178]") {
  test::SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto child = term.child(school);
  term.records.children.back().value.birth = {2016, 3};
  auto gone = test::found(16, Condition::notLookedAt);
  gone.presence = Presence::extracted;
  auto never = test::found(26, Condition::notLookedAt);
  never.presence = Presence::neverFormed;
  term.screen(child, term.day(school, "2026-10-06"),
              {gone, never, test::found(36, Condition::sound)});
  const auto report = attackRateOf(term.records);
  REQUIRE(report.estimate);
  CHECK(report.estimate->molars == 2);
  CHECK(report.estimate->affected == 1);
  CHECK(report.extracted == 1);
  CHECK(report.notSeenLeftOut == 1);
}

TEST_CASE("Schools that differ widen the range of the attack rate", "[case-177]") {
  test::SampleTerm term;
  for (int s = 0; s < 10; ++s) {
    const auto school = term.school("School " + std::to_string(s), 50);
    const auto day = term.day(school, "2026-10-06");
    for (int i = 0; i < 30; ++i) {
      const auto child = term.child(school);
      term.records.children.back().value.birth = {2016, 3};
      const bool isBad = i < (s % 2 == 0 ? 2 : 14);
      term.screen(child, day, {test::found(16, isBad ? Condition::cavitated : Condition::sound)});
    }
  }
  const auto report = attackRateOf(term.records);
  CHECK(report.unit == ClusterUnit::schools);
  CHECK(report.estimate->standardError.value() > std::sqrt(*report.estimate->modelVariance) * 1.5);
}

TEST_CASE("Second molars take a rate of their own from thirty children on, else it is said",
          "[case-179]") {
  const auto textOf = [](int carriers, bool sealsSeconds = true) {
    test::SampleTerm term;
    const auto school = term.school("Elderbrook Middle", 131);
    const auto then = term.dayLastYear(school, "2025-10-14");
    const auto day = term.day(school, "2026-10-06");
    for (int i = 0; i < 40; ++i) {
      const auto child = term.child(school);
      term.records.children.back().value.birth = {2012, 3}; // fourteen: second molars two years up
      std::vector teeth{test::found(16, i < 12 ? Condition::cavitated : Condition::sound)};
      if (i < carriers)
        teeth.push_back(test::found(17, i % 5 == 0 ? Condition::cavitated : Condition::sound));
      term.screen(child, day, teeth);
      term.place(child, day, 26);
      if (sealsSeconds) term.place(child, day, 27);
      term.check(term.place(child, then, 46), day,
                 i % 9 == 0 ? followup::Held::lost : followup::Held::whole);
    }
    const auto totals = term.totals();
    CHECK(totals.averted.averted.has_value());
    CHECK(totals.averted.firstsAlone.has_value() == (carriers < 30 && sealsSeconds));
    return toText(termTables(totals));
  };
  CHECK(textOf(29).find("use the first molars' rate") != std::string::npos);
  CHECK(textOf(29).find("First molars only") != std::string::npos);
  CHECK(textOf(30).find("use the first molars' rate") == std::string::npos);
  CHECK(textOf(30).find("Second molars have a rate of their own") != std::string::npos);
  CHECK(textOf(30).find("The two CIs are added end to end") != std::string::npos);
  const auto firstsAlone = textOf(30, false); // nothing of second molars is in the sum
  CHECK(firstsAlone.find("Second molars have a rate of their own") != std::string::npos);
  CHECK(firstsAlone.find("The two CIs are added") == std::string::npos);
}

TEST_CASE("With no molar affected the teeth spared have a range all the same", "[case-180]") {
  test::SampleTerm term;
  const auto school = term.school("Elderbrook Middle", 131);
  const auto then = term.dayLastYear(school, "2025-10-14");
  const auto day = term.day(school, "2026-10-06");
  for (int i = 0; i < 10; ++i) {
    const auto child = term.child(school);
    term.records.children.back().value.birth = {2016, 3};
    term.screen(child, day, {test::found(16, Condition::sound)});
    term.place(child, day, 26);
    term.check(term.place(child, then, 46), day, followup::Held::whole);
  }
  const auto totals = term.totals();
  REQUIRE(totals.averted.averted);
  CHECK(totals.averted.averted->averted == 0);
  REQUIRE(totals.averted.averted->interval);
  CHECK(totals.averted.averted->interval->low == 0);
  CHECK(totals.averted.averted->interval->high > 0);
}
