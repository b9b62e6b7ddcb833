// Checks made because a loss was reported. Truth known by construction (own simulation, nothing of
// the program in it).

#include "reports/compare/curve_table.h"
#include "reports/retention/early_checks.h"
#include "reports/retention/retention_curve.h"
#include "reports/retention/year_of_looks.h"

#include "base/random.h"
#include "base/text/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>

using namespace gk;
using namespace gk::reports;
using chairside::PlacementType;
using estimates::SpellState;
using followup::CheckKind;
using followup::Held;
using test::YearOfLooks;

namespace {

constexpr int yearOn = 364; // days after placement
constexpr int twoYearsOn = 728;

CurveOptions withoutBand() {
  CurveOptions options;
  options.replicates = 0;
  return options;
}

std::string notesOf(const TermView& view) {
  const auto curve = retentionCurve(view, withoutBand());
  return base::join(curveTable(curve, curve, curve).notes, "\n");
}

/// Children of two molars. A sealant is lost at a constant hazard, one in five in a year; six in
/// ten children are found at a year, and six in ten at two; of the losses half are reported, and
/// looked at a fortnight later with whatever else is in that mouth. What is lost is sealed again
/// that day, and goes on likewise. `isNamed` is whether the chair can enter such looks as what they
/// are, or has to enter them as it had before.
class ReportingCounty {
 public:
  ReportingCounty(std::uint64_t seed, bool isNamed) : random_(seed), isNamed_(isNamed) {
    term.records.asOf = test::date("2027-12-18");
    // The whole window lies in the term: none was judged in an earlier one.
    term.records.term.start = test::date("2026-07-01");
    term.records.term.end = test::date("2027-01-31");
    for (int i = 0; i < 1200; ++i)
      live();
  }

  YearOfLooks term;

 private:
  struct Sealed {
    chairside::PlacementId id;
    int placed;
    int lost;
    bool isReported;
  };

  Sealed seal(roster::ChildId child, int iso, int on) {
    const auto type = on == 0 ? PlacementType::fresh : PlacementType::reseal;
    const double years = std::log1p(-random_.uniform()) / std::log(.8);
    const bool isReported = random_.uniform() < .5;
    return {term.place(child, dayOn(on), iso, type), on,
            on + static_cast<int>(std::ceil(365.25 * std::min(years, 10.))), isReported};
  }

  roster::DayId dayOn(int days) {
    const auto at = days_.find(days);
    if (at != days_.end()) return at->second;
    const auto on = test::date("2025-10-14").plusDays(days).iso();
    const auto made = days < 330 ? term.dayLastYear(term.here, on) : term.day(term.here, on);
    days_.emplace(days, made);
    return made;
  }

  void live() {
    const auto child = term.child(term.here);
    std::vector<int> planned;
    for (const int on : {yearOn, twoYearsOn})
      if (random_.uniform() < .6) planned.push_back(on);
    const std::array molars{16, 26};
    std::vector<Sealed> mouth;
    for (const int iso : molars)
      mouth.push_back(seal(child, iso, 0));
    for (int now = 0;;) {
      std::optional<int> next;
      bool isPlanned = true;
      for (const int on : planned)
        if (on > now) next = std::min(next.value_or(on), on);
      for (const auto& one : mouth)
        if (const int on = one.lost + 14; one.isReported && on > now && (!next || on < *next)) {
          next = on;
          isPlanned = false;
        }
      if (!next || *next > 790) return;
      now = *next;
      for (std::size_t i = 0; i < mouth.size(); ++i) {
        const bool isLost = mouth[i].lost < now;
        term.look(mouth[i].id, dayOn(now), isLost ? Held::lost : Held::whole,
                  kindOf(mouth[i].placed, now, isPlanned));
        if (isLost) mouth[i] = seal(child, molars.at(i), now);
      }
    }
  }

  [[nodiscard]] CheckKind kindOf(int placed, int now, bool isPlanned) const {
    if (!isPlanned && isNamed_) return CheckKind::reportedLoss;
    const auto first = test::date("2025-10-14");
    if (followup::isWithin({}, first.plusDays(placed), first.plusDays(now)))
      return CheckKind::longTerm;
    return isPlanned ? CheckKind::opportunistic : CheckKind::shortTermTriggered;
  }

  base::SeededRandom random_;
  bool isNamed_;
  std::map<int, roster::DayId> days_;
};

/// What a report says, in percent: the one-year figure, and the curve at half a year, one and two.
struct Said {
  double atYear = 0;
  double half = 0;
  double one = 0;
  double two = 0;
};

Said saidOf(std::uint64_t seed, bool isNamed) {
  const ReportingCounty county(seed, isNamed);
  const auto curve = retentionCurve(county.term.records, withoutBand());
  const auto at = [&](int days) {
    const auto range = curve.survivalAt(days / 365.25);
    return 50 * (range.low + range.high);
  };
  return {100 * county.term.total().whole95->estimate, at(182), at(yearOn), at(twoYearsOn)};
}

double truthAt(int days) {
  return 100 * std::pow(.8, days / 365.25);
}

} // namespace

TEST_CASE("A loss that is reported moves neither the one-year figure nor the curve", "[case-525]") {
  // 2,400 teeth, of which some 1,440 are looked at at a year: one standard error is 1.1 points.
  const auto before = saidOf(525, false);
  const auto now = saidOf(525, true);
  CHECK(now.atYear == Approx(truthAt(yearOn)).margin(3.3));
  CHECK(now.one == Approx(truthAt(yearOn)).margin(3.3));
  CHECK(now.two == Approx(truthAt(twoYearsOn)).margin(4.5));
  // The same lives and the same looks: what differs is the kind of those that a report brought.
  CHECK(before.atYear < now.atYear - .5);
  CHECK(before.one < now.one - .5);
  CHECK(before.half < truthAt(182) - 5);
  CHECK(now.half > before.half + 3);
}

TEST_CASE("What reports of a loss do to retention, with and without a kind of their own",
          "[.simulation][reported-loss]") {
  constexpr int rounds = 60;
  std::array<Said, 2> sums;
  for (int round = 0; round < rounds; ++round)
    for (const bool isNamed : {false, true}) {
      const auto said = saidOf(1000 + static_cast<std::uint64_t>(round), isNamed);
      auto& sum = sums.at(isNamed ? 1 : 0);
      sum.atYear += said.atYear / rounds;
      sum.half += said.half / rounds;
      sum.one += said.one / rounds;
      sum.two += said.two / rounds;
    }
  const auto line = [](const std::string& what, double truth, double before, double now) {
    std::cout << "| " << what << " | " << base::fixed(truth, 1) << " | " << base::fixed(before, 1)
              << " | " << base::fixed(now, 1) << " |\n";
  };
  std::cout << "| figure | truth | without | with |\n|---|---|---|---|\n";
  line("one-year retention of first sealants", truthAt(yearOn), sums[0].atYear, sums[1].atYear);
  line("curve at half a year", truthAt(182), sums[0].half, sums[1].half);
  line("curve at one year", truthAt(yearOn), sums[0].one, sums[1].one);
  line("curve at two years", truthAt(twoYearsOn), sums[0].two, sums[1].two);
  CHECK(sums[1].atYear == Approx(truthAt(yearOn)).margin(.5));
  CHECK(sums[1].one == Approx(truthAt(yearOn)).margin(.5));
  CHECK(sums[1].two == Approx(truthAt(twoYearsOn)).margin(.8));
  CHECK(sums[0].atYear < truthAt(yearOn) - 1);
}

TEST_CASE("A check for a reported loss finds no student for the one-year figure", "[case-525]") {
  // Truth: of ten children four are found at a year, whole. Of the six others two come in the
  // window because a loss was reported: it is lost.
  YearOfLooks term;
  for (int i = 0; i < 10; ++i) {
    const auto placed = term.place(term.child(term.here), term.placed, 16);
    if (i < 4) term.atYear(placed, Held::whole);
    if (i >= 8) term.look(placed, term.year, Held::lost, CheckKind::reportedLoss);
  }
  auto total = term.total();
  CHECK(total.childrenFound == 4);
  CHECK(total.assessable == 4);
  CHECK(total.lost == 0);
  CHECK(total.lostUnfound == 2); // which narrows the bounds
  CHECK(total.reported == 2);
  CHECK(total.reportedOut == 2);
  CHECK(term.text().find("Of the sealants due 2 were checked because a loss was reported") !=
        std::string::npos);
  CHECK(term.text().find("without a one-year check that assessed them: 2.") != std::string::npos);
  CHECK(term.text().find("as another check found the student") == std::string::npos);

  // One of the two is found by the one-year check of its other tooth: its loss counts.
  const auto child = term.records.children.back().id;
  term.atYear(term.place(child, term.placed, 26), Held::whole);
  total = term.total();
  CHECK(total.childrenFound == 5);
  CHECK(total.lost == 1);
  CHECK(total.reportedOut == 1);
  CHECK(term.text().find("In them: 1, as another check found the student") != std::string::npos);
}

TEST_CASE("Without a reported loss no report speaks of one", "[case-525]") {
  YearOfLooks term;
  term.atYear(term.place(term.child(term.here), term.placed, 16), Held::lost);
  CHECK(term.total().reported == 0);
  CHECK(term.text().find("was reported") == std::string::npos);
  CHECK(notesOf(term.records).find("was reported") == std::string::npos);
  CHECK(notesOf(term.records).find("after a report") == std::string::npos);
}

TEST_CASE("What a check for a reported loss finds is no later answer for the window",
          "[case-408][case-525]") {
  YearOfLooks term;
  const auto placed = term.place(term.child(term.here), term.placed, 16);
  term.look(placed, term.year, Held::cannotAssess, CheckKind::longTerm);
  term.look(placed, term.day(term.here, "2027-02-10"), Held::lost, CheckKind::reportedLoss);
  term.records.asOf = test::date("2027-03-01");
  const auto total = term.total();
  CHECK(total.cannotAssess == 1);
  CHECK(total.lost == 0);
}

TEST_CASE("The curve dates a reported loss by the next check for another reason", "[case-525]") {
  // Truth by construction: three sealants. One is reported lost at a month, sealed again that day,
  // and its tooth looked at at a year; one likewise and never looked at again; one whole at a year.
  YearOfLooks term;
  const auto lose = [&] {
    const auto child = term.child(term.here);
    term.look(term.place(child, term.placed, 16), term.month, Held::lost, CheckKind::reportedLoss);
    return term.place(child, term.month, 16, PlacementType::reseal);
  };
  term.atYear(lose(), Held::whole);
  lose();
  term.atYear(term.place(term.child(term.here), term.placed, 16), Held::whole);
  const auto curve = retentionCurve(term.records, withoutBand());
  REQUIRE(curve.curve);
  CHECK(curve.placements == 5);
  CHECK(curve.reportedChecks == 2);
  CHECK(curve.reportedDated == 1);
  CHECK(curve.reportedOpen == 1);
  CHECK(curve.reportedOnly == 0);
  CHECK_FALSE(curve.kinds.contains(CheckKind::reportedLoss));
  CHECK(curve.ends.count(SpellState::failed) == 1);
  // The reseal was looked at at 334 days, the other two teeth at 364.
  CHECK(curve.looks.size() == 2);
  CHECK(curve.survivalAt(yearOn / 365.25).low == Approx(.5));
  const auto notes = notesOf(term.records);
  CHECK(
      notes.find("Of 5 sealants: failed 1, fully retained 2, never assessed 1, found failed after "
                 "a report and not checked since 1.") != std::string::npos);
  CHECK(notes.find("Left out: 2 checks made because a loss was reported.") != std::string::npos);
  CHECK(notes.find("checked later for another reason: 1 sealant,") != std::string::npos);
  CHECK(notes.find("not checked since for another reason: 1 sealant,") != std::string::npos);
  CHECK(notes.find("Not all were planned") == std::string::npos);
}

TEST_CASE("A loss that a planned check had found first stays where it was found", "[case-525]") {
  YearOfLooks term;
  const auto placed = term.place(term.child(term.here), term.placed, 16);
  term.look(placed, term.third, Held::lost, CheckKind::opportunistic);
  term.look(placed, term.spring, Held::lost, CheckKind::reportedLoss);
  const auto curve = retentionCurve(term.records, withoutBand());
  CHECK(curve.reportedDated + curve.reportedOpen == 0);
  CHECK(curve.ends.count(SpellState::failed) == 1);
  CHECK(curve.looks.size() == 1);
}

TEST_CASE("Where the only checks are of reported losses there is no curve, and it is said why",
          "[case-525]") {
  YearOfLooks term;
  term.look(term.place(term.child(term.here), term.placed, 16), term.month, Held::lost,
            CheckKind::reportedLoss);
  term.look(term.place(term.child(term.here), term.placed, 16), term.month, Held::whole,
            CheckKind::reportedLoss);
  const auto curve = retentionCurve(term.records, withoutBand());
  CHECK_FALSE(curve.curve);
  CHECK(curve.reportedOpen == 1);
  CHECK(curve.reportedOnly == 1);
  CHECK(notesOf(term.records).find("but for checks made because a loss was reported") !=
        std::string::npos);
  YearOfLooks none;
  none.place(none.child(none.here), none.placed, 16);
  CHECK(notesOf(none.records) == "No check has assessed a sealant yet.");
}

TEST_CASE("Checks of reported losses are counted by themselves, without a percentage",
          "[case-525]") {
  YearOfLooks term;
  term.look(term.place(term.child(term.here), term.placed, 16), term.year, Held::lost,
            CheckKind::reportedLoss);
  const auto lines = earlyChecks(term.records);
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().label == "reported loss");
  CHECK(lines.front().lost == 1);
  CHECK(shortTermChecks(term.records).examined == 0);
  const auto table = earlyCheckTable(term.records);
  CHECK(table.rows.front().back().text() == Cell(noFigure).text());
  CHECK(base::join(table.notes, "\n").find("Reported loss: these students") != std::string::npos);

  YearOfLooks planned;
  planned.look(planned.place(planned.child(planned.here), planned.placed, 16), planned.year,
               Held::lost, CheckKind::opportunistic);
  const auto other = earlyCheckTable(planned.records);
  CHECK(other.rows.front().back().text().starts_with("0.0"));
  CHECK(base::join(other.notes, "\n").find("Reported loss") == std::string::npos);
}
