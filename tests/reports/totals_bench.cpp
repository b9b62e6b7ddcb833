#include "reports/compare/retention_plots.h"
#include "reports/retention/retention_table.h"
#include "reports/sample.h"
#include "reports/term/rows_behind.h"
#include "reports/term/term_tables.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <iostream>

using namespace gk;
using namespace gk::reports;
using followup::Held;

namespace {

followup::RetentionCheck longTermCheck(chairside::PlacementId placement, roster::ChildId child,
                                       roster::DayId day) {
  return {placement,
          child,
          day,
          followup::CheckKind::longTerm,
          true,
          Held::whole,
          Held::notSealed,
          Held::notSealed,
          followup::CannotAssess::none,
          followup::ToothHealth::sound,
          followup::LiftTest::notDone,
          followup::CheckAction::none,
          ""};
}

/// 1,000,000 sealants of 250,000 children in 40 schools, of which three in four were checked.
class Million : public test::SampleTerm {
 public:
  Million() {
    base::SeededRandom random(20'261'125);
    std::vector<roster::DayId> then;
    std::vector<roster::DayId> now;
    std::vector<roster::SchoolId> schools;
    for (int i = 0; i < 40; ++i) {
      schools.push_back(school("School " + std::to_string(i), 7000));
      then.push_back(dayLastYear(schools.back(), "2025-10-14"));
      now.push_back(day(schools.back(), "2026-10-13"));
    }
    records.placements.reserve(1'000'000);
    records.checks.reserve(750'000);
    for (int i = 0; i < 250'000; ++i) {
      const auto at = static_cast<std::size_t>(i) % schools.size();
      const auto one = child(schools[at]);
      const bool isFound = random.below(4) > 0;
      for (const int iso : {16, 26, 36, 46}) {
        const auto id = place(one, then[at], iso);
        auto& placement = records.placements.back().value;
        placement.isolation = static_cast<chairside::Isolation>(random.below(6));
        placement.fourHanded = random.below(3) > 0;
        if (!isFound) continue;
        auto checked = longTermCheck(id, one, now[at]);
        checked.occlusal = random.below(8) == 0 ? Held::lost : Held::whole;
        records.checks.push_back(make.row(checked));
      }
    }
  }
};

template <class Work>
double milliseconds(Work work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
}

} // namespace

TEST_CASE("A choice among a million sealants is answered under 200 ms", "[.bench]") {
  const Million million;
  std::optional<RetentionFacts> facts;
  std::cout << "facts made once, ms: " << milliseconds([&] { facts.emplace(million.records); })
            << '\n';
  double worst = 0;
  for (std::size_t i = 0; i < base::enumCount<Factor>; ++i) {
    const auto factor = static_cast<Factor>(i);
    for (const bool narrowed : {false, true}) {
      Choice choice;
      if (narrowed) choice.of(Factor::isolation) = FactorCode{2};
      const double took = milliseconds([&] {
        const auto lines = retentionBy(*facts, factor, choice);
        const auto plot = linesPlot(lines, factor, retentionLine(*facts, choice));
        const auto table = retentionTable("Retention", lines);
        if (plot) CHECK_FALSE(toSvg(*plot).empty());
      });
      worst = std::max(worst, took);
    }
  }
  std::cout << "slowest choice, ms: " << worst << '\n';
  CHECK(worst < 200);
}
