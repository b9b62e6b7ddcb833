#include "reports/services/cost_report.h"

#include "reports/print/cells.h"
#include "reports/sample.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace gk;
using namespace gk::reports;
using roster::CostKind;

namespace {

/// Alder: two days, costs of the first alone; Birch: one day with costs.
struct CostedTerm : test::SampleTerm {
  roster::SchoolId alder = school("Alder Hollow", 40);
  roster::SchoolId birch = school("Birch Row", 60);
  roster::DayId first = day(alder, "2026-10-06");
  roster::DayId second = day(alder, "2026-10-08");
  roster::DayId third = day(birch, "2026-10-20");
  std::vector<roster::ChildId> children;

  CostedTerm() {
    for (int i = 0; i < 4; ++i) {
      children.push_back(child(alder));
      screen(children.back(), first);
    }
    place(children[0], first, 16);
    place(children[0], first, 26);
    place(children[1], first, 17);
    place(children[2], second, 16); // of a day without costs
    screen(child(alder), second);
    screen(child(birch), third);
    cost(first, {{CostKind::staff, 99900}}); // entered again below
    cost(first, {{CostKind::staff, 40000}, {CostKind::supplies, 6000}});
    cost(third, {{CostKind::staff, 20000}});
  }

  void cost(roster::DayId on, std::vector<roster::CostLine> lines) {
    records.costs.push_back(make.row<roster::DayCost>({on, std::move(lines)}));
  }
  [[nodiscard]] std::vector<Table> tables() const {
    return costReport(records, termTotals(records));
  }
};

std::string costCell(const Table& table, const std::string& row, const std::string& heading) {
  for (const auto& cells : table.rows)
    if (cells.front() == row)
      for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].heading == heading) return cells.at(i).text();
  FAIL("no cell " << row << ", " << heading);
  return {};
}

/// Averted 100 (80 to 125), with nothing else said.
TermTotals avertedKnown(const CostedTerm& term) {
  return termTotals(term.records);
}

} // namespace

TEST_CASE("Costs and care are of the same days, and the last word of a day counts") {
  const CostedTerm term;
  const auto table = term.tables().front();
  CHECK(costCell(table, "Alder Hollow", "Days with costs") == "1 of 2");
  CHECK(costCell(table, "Alder Hollow", "Staff, $") == "400.00");
  CHECK(costCell(table, "Alder Hollow", "Supplies, $") == "60.00");
  CHECK(costCell(table, "Alder Hollow", "Total, $") == "460.00");
  CHECK(costCell(table, "Alder Hollow", "Students seen") == "4"); // not the fifth
  CHECK(costCell(table, "Alder Hollow", "Per student seen, $") == "115.00");
  CHECK(costCell(table, "Alder Hollow", "Teeth sealed") == "3"); // not the fourth
  CHECK(costCell(table, "Alder Hollow", "Per tooth sealed, $") == "153.33");
  CHECK(costCell(table, "Birch Row", "Per tooth sealed, $") == nothing); // none sealed
  CHECK(costCell(table, "All schools", "Total, $") == "660.00");
  CHECK(costCell(table, "All schools", "Per student seen, $") == "132.00"); // of 5
  CHECK(table.title.find("estimated") != std::string::npos);
}

TEST_CASE("A day without costs is told of exactly while there is one") {
  CostedTerm term;
  const auto saysSo = [&] {
    const auto tables = term.tables();
    return std::ranges::any_of(tables.front().notes, [](const auto& note) {
      return note.starts_with("No costs are entered for 1 day");
    });
  };
  CHECK(saysSo());
  term.cost(term.second, {}); // it cost nothing
  CHECK_FALSE(saysSo());
}

TEST_CASE("A child seen at two schools counts at each, and once in all") {
  CostedTerm term;
  term.screen(term.children[3], term.third);
  const auto costs = costsOf(term.records);
  CHECK(costs.at(0).seen == 4);
  CHECK(costs.at(1).seen == 2);
  CHECK(costs.at(2).seen == 5);
}

TEST_CASE("The cost of a cavity averted carries the estimate's own range, turned around") {
  CostedTerm term;
  auto totals = avertedKnown(term);
  CHECK_FALSE(costReport(term.records, totals).at(1).notes.empty());
  CHECK(costReport(term.records, totals).at(1).rows.empty()); // no attack rate

  // An attack rate of 7 % (6.0-8.1) and a protection of 92 % of 500 teeth in 200 children.
  estimates::AttackRateEstimate rate{};
  rate.annual = 0.07;
  rate.standardError = 0.077; // of log(-log(1 - rate))
  rate.low = 0.06;
  rate.high = 0.081;
  totals.attackRate.estimate = rate;
  std::vector<estimates::Cluster> clusters;
  for (int i = 0; i < 200; ++i)
    clusters.push_back({3, i % 4 == 0 ? 2.0 : 3.0});
  totals.retention.total.protected95 = *estimates::retention(clusters);
  const auto table = costReport(term.records, totals).at(1);
  const auto averted = avertedOf({2, 1}, totals.attackRate, totals.retention.total.protected95, 9,
                                 protectedBounds(totals.retention.total));
  REQUIRE(averted.averted);
  REQUIRE(averted.averted->interval);
  const auto money = [](double amount) { return roster::centsText(std::llround(100 * amount)); };
  CHECK(costCell(table, "As measured", "Cost per cavity, $") ==
        money(660 / averted.averted->averted));
  CHECK(costCell(table, "As measured", "95% CI, $") ==
        money(660 / averted.averted->interval->high) + "-" +
            money(660 / averted.averted->interval->low));
  CHECK(costCell(table, "Sealants protect less while retained", "Cost per cavity, $") ==
        money(660 / averted.cautious->averted));
}

TEST_CASE("Where no costs are entered the report says where to enter them, and has no figure") {
  test::SampleTerm term;
  term.day(term.school("Alder Hollow", 40), "2026-10-06");
  const auto tables = costReport(term.records, termTotals(term.records));
  REQUIRE(tables.size() == 1);
  CHECK(tables.front().rows.empty());
  CHECK(tables.front().notes.front().find("close-out (F3)") != std::string::npos);
}
