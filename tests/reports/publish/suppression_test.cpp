#include "reports/publish/suppression.h"

#include "base/random.h"
#include "reports/print/render.h"
#include "reports/publish/attack.h"
#include "reports/publish/county.h"
#include "reports/publish/published.h"
#include "reports/publish/published_counts.h"
#include "support/long_checks.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using namespace gk::test;

namespace {

/// Of the invented county's one-year checks, which have few lost and few that were not judged.
RetentionTotals countyChecks() {
  RetentionTotals out;
  out.schools = {checksOf("Alder Hollow", 49, 36, 114, 8, 6, 2),
                 checksOf("Brindle Quay", 38, 27, 87, 6, 4, 1),
                 checksOf("Cobble Lantern", 55, 38, 108, 14, 12, 3),
                 checksOf("Dunlin Marsh", 26, 18, 56, 4, 3, 1),
                 checksOf("Elderbrook", 40, 24, 74, 6, 4, 2),
                 checksOf("Fennel Ridge", 33, 25, 73, 5, 3, 1)};
  addUp(out);
  return out;
}

RetentionTotals randomChecks(base::Random& random) {
  RetentionTotals out;
  const auto upTo = [&](int most) {
    return static_cast<int>(random.below(static_cast<std::uint64_t>(most) + 1));
  };
  const auto count = 1 + random.below(5);
  for (std::uint64_t i = 0; i < count; ++i) {
    const int due = 5 + upTo(50);
    const int found = due - upTo(due);
    const int teeth = found + upTo(3 * found); // at least one for each child that was found
    const int part = upTo(12);
    const int lost = upTo(12);
    out.schools.push_back(
        checksOf("School " + std::to_string(i), due, found, teeth, part, lost, upTo(6)));
  }
  addUp(out);
  return out;
}

const Table& tableCalled(const std::vector<Table>& tables, const std::string& title) {
  const auto found = std::ranges::find(tables, title, &Table::title);
  REQUIRE(found != tables.end());
  return *found;
}

std::string cell(const Table& table, const std::string& row, const std::string& column) {
  const auto at = std::ranges::find(table.columns, column, &Column::heading);
  REQUIRE(at != table.columns.end());
  for (const auto& cells : table.rows)
    if (cells.front() == row)
      return cells.at(static_cast<std::size_t>(at - table.columns.begin())).text();
  FAIL("no row " << row);
  return {};
}

/// Counts by row and column with both sums, and in each row: first = second + third.
CountSystem randomTable(base::Random& random) {
  CountSystem system;
  const auto rows = 1 + random.below(4);
  std::vector<std::vector<std::size_t>> cells;
  std::array<int, 2> totals{};
  for (std::size_t row = 0; row <= rows; ++row) {
    std::array<int, 2> parts{};
    for (std::size_t i = 0; i < 2; ++i) {
      parts.at(i) = static_cast<int>(random.below(random.below(2) == 0 ? 8 : 40));
      if (row == rows) parts.at(i) = totals.at(i);
      totals.at(i) += row == rows ? 0 : parts.at(i);
    }
    const auto whole = system.add({.value = parts[0] + parts[1], .row = row});
    const auto one = system.add({.value = parts[0], .row = row});
    const auto other = system.add({.value = parts[1], .row = row});
    system.sums.push_back({whole, {one, other}});
    cells.push_back({whole, one, other});
  }
  system.totalRow = rows;
  for (std::size_t column = 0; column < 3; ++column) {
    CountSum sum{cells.back()[column], {}};
    for (std::size_t row = 0; row < rows; ++row)
      sum.parts.push_back(cells[row][column]);
    system.sums.push_back(std::move(sum));
  }
  return system;
}

TermTotals randomTerm(base::Random& random) {
  std::vector<Participation> schools;
  const auto count = 1 + random.below(5);
  const auto upTo = [&](int most) {
    return static_cast<int>(random.below(static_cast<std::uint64_t>(most) + 1));
  };
  for (std::uint64_t i = 0; i < count; ++i) {
    Participation at;
    at.school = "School " + std::to_string(i);
    if (upTo(9) > 0) at.enrolled = 20 + upTo(100);
    at.formsBack = upTo(at.enrolled.value_or(60));
    at.consented = upTo(at.formsBack);
    at.screened = at.consented - std::min(at.consented, upTo(6));
    at.needing = upTo(at.screened);
    at.sealed = at.needing - std::min(at.needing, upTo(4));
    at.firstMolars = 3 * at.sealed;
    at.secondMolars = upTo(at.sealed);
    at.varnish = upTo(at.screened);
    at.urgent = std::min(at.screened, upTo(3));
    at.early = upTo((at.screened - at.urgent) / 2);
    at.untreated = at.early + at.urgent;
    schools.push_back(std::move(at));
  }
  return totalsOf(std::move(schools));
}

} // namespace

TEST_CASE("A threshold under five cannot be made") {
  CHECK(SuppressionRule().threshold() == 10);
  CHECK(SuppressionRule::under(5)->threshold() == 5);
  for (const int low : {4, 1, 0, -10})
    CHECK(SuppressionRule::under(low).error().code == base::ErrorCode::numberMalformed);
}

TEST_CASE("A small school's few urgent children are hidden, and so is what gives them away",
          "[case-83]") {
  const auto tables = publish(county()).tables;
  const auto& findings = tableCalled(tables, "Findings");
  CHECK(cell(findings, "Cobble Lantern", "Urgent") == "fewer than 10");
  CHECK(cell(findings, "Cobble Lantern", "% urgent") == "suppressed");
  // untreated = early + urgent: with both shown, urgent would be their difference
  const bool showsBoth = cell(findings, "Cobble Lantern", "Early care") == "16" &&
                         cell(findings, "Cobble Lantern", "Untreated decay") == "18";
  CHECK_FALSE(showsBoth);
  CHECK(cell(findings, "Elderbrook", "Urgent") == "0");
  CHECK(cell(findings, "Total", "Screened") == "337");
  CHECK(cell(findings, "Total", "Untreated decay") == "78");
  for (const auto& table : tables)
    CHECK(toText(std::span(&table, 1)).find("Small numbers, method 2") != std::string::npos);
}

TEST_CASE("A count that is all of its group, or nearly, is hidden") {
  auto all = schoolOf("All", {38, 20, 0});
  all.varnish = 38;
  auto nearly = schoolOf("Nearly", {60, 20, 0});
  nearly.varnish = 55;
  auto half = schoolOf("Half", {60, 20, 0});
  half.varnish = 30;
  const auto tables = publish(totalsOf({all, nearly, half})).tables;
  const auto& services = tableCalled(tables, "Services");
  CHECK(cell(services, "All", "Varnish") == "suppressed");
  CHECK(cell(services, "Nearly", "Varnish") == "suppressed");
  CHECK(cell(services, "Total", "Varnish") == "123");
}

TEST_CASE("Nothing is hidden where nothing is small") {
  CountSystem system;
  const auto one = system.add({.value = 20, .row = 0});
  const auto other = system.add({.value = 0, .row = 1});
  const auto total = system.add({.value = 20, .row = 2});
  system.sums.push_back({total, {one, other}});
  system.totalRow = 2;
  const auto shown = suppress(system, {});
  CHECK(std::ranges::count(shown.cells, Showing::number) == 3);
  CHECK(shown.exposed.empty());
}

TEST_CASE("The attack finds a small count that only itself is hidden") {
  auto system = termCounts(county()).system;
  Suppressed careless;
  for (const auto& one : system.cells)
    careless.cells.push_back(isTooSmall(one, {}) || !one.printed ? Showing::withheld
                                                                 : Showing::number);
  CHECK_FALSE(attack(system, careless, {}).empty());
}

TEST_CASE("No attack on random tables works out a small count") {
  base::SeededRandom random(test::seedOr(83));
  for (int i = 0; i < test::rounds(3000, 30'000); ++i) {
    const auto system = randomTable(random);
    const auto rule = *SuppressionRule::under(5 + static_cast<int>(random.below(8)));
    const auto shown = suppress(system, rule);
    INFO("table " << i << ", under " << rule.threshold());
    CHECK(shown.exposed.empty());
    REQUIRE(attack(system, shown, rule) == std::vector<std::string>{});
  }
}

TEST_CASE("No attack on the tables of a term works out a small count", "[case-83]") {
  base::SeededRandom random(test::seedOr(5));
  for (int i = 0; i < test::rounds(60, 600); ++i) {
    const auto totals = i == 0 ? county() : randomTerm(random);
    const auto rule = *SuppressionRule::under(i % 2 == 0 ? 10 : 5);
    const auto system = termCounts(totals).system;
    INFO("term " << i);
    REQUIRE(attack(system, suppress(system, rule), rule) == std::vector<std::string>{});
  }
}

TEST_CASE("No attack on the retention tables works out a small count", "[case-83]") {
  base::SeededRandom random(test::seedOr(41));
  for (int i = 0; i < test::rounds(60, 600); ++i) {
    auto totals = county();
    totals.retention = i == 0 ? countyChecks() : randomChecks(random);
    const auto rule = *SuppressionRule::under(i % 2 == 0 ? 10 : 5);
    const auto system = checkCounts(totals).system;
    INFO("checks " << i);
    const auto shown = suppress(system, rule);
    CHECK(shown.exposed.empty());
    REQUIRE(attack(system, shown, rule) == std::vector<std::string>{});
  }
}

TEST_CASE("No attack works out a small count from retention tables that followed each other",
          "[case-83]") {
  auto before = county();
  before.retention = countyChecks();
  auto after = before;
  after.retention.schools[2] = checksOf("Cobble Lantern", 55, 40, 113, 15, 13, 4);
  addUp(after.retention);
  const std::vector<Release> earlier{publish(before).release};
  const auto system = checkCounts(after, earlier).system;
  const auto shown = suppress(system, {});
  CHECK(shown.exposed.empty());
  CHECK(attack(system, shown, {}) == std::vector<std::string>{});
}

TEST_CASE("Schools shown as one group hide less and no attack works out a small count of either",
          "[case-83]") {
  auto totals = county();
  totals.retention = countyChecks();
  const Groups groups{{"Dunlin Marsh", "Brindle Quay"}};
  const auto published = publish(totals, {}, {}, groups);
  const auto& findings = tableCalled(published.tables, "Findings");
  CHECK(findings.rows.size() == 6);
  CHECK(cell(findings, "Brindle Quay + Dunlin Marsh", "Screened") == "89");
  CHECK(published.hidden < publish(totals).hidden);
  for (const auto& system :
       {termCounts(totals, {}, groups).system, checkCounts(totals, {}, groups).system})
    CHECK(attack(system, suppress(system, {}), {}) == std::vector<std::string>{});
}

TEST_CASE("The smallest schools are offered as a group only where that hides less") {
  const auto offered = groupsToOffer(county(), {});
  REQUIRE(offered.size() == 1);
  const auto merged = publish(county(), {}, {}, offered);
  const auto apart = publish(county());
  CHECK(merged.hidden * apart.counts < apart.hidden * merged.counts);
  CHECK(offered.front().front() == "Dunlin Marsh"); // 38 screened
  auto large = schoolOf("Large", {60, 20, 0});
  large.varnish = 30;
  CHECK(groupsToOffer(totalsOf({large, large}), {}).empty());
}

TEST_CASE("A group does not give away a school that was published by itself", "[case-83]") {
  const auto totals = county();
  const Groups groups{{"Dunlin Marsh", "Brindle Quay"}};
  const std::vector<Release> earlier{publish(totals).release};
  const auto system = termCounts(totals, earlier, groups).system;
  const auto shown = suppress(system, {});
  CHECK(shown.exposed.empty());
  CHECK(attack(system, shown, {}) == std::vector<std::string>{});
}

TEST_CASE("What three tables in a row showed gives no small change away", "[case-83]") {
  const auto more = [](TermTotals totals, std::size_t school, int children, int urgent) {
    auto& at = totals.schools[school];
    at.screened += children;
    at.consented += children;
    at.urgent += urgent;
    at.untreated += urgent;
    totals.total = sumOf(totals.schools);
    return totals;
  };
  const auto first = county();
  const auto second = more(first, 2, 3, 1);
  const auto third = more(second, 0, 12, 2);
  std::vector<Release> earlier{publish(first).release};
  earlier.push_back(publish(second, {}, earlier).release);
  const auto system = termCounts(third, earlier).system;
  const auto shown = suppress(system, {});
  CHECK(shown.exposed.empty());
  CHECK(attack(system, shown, {}) == std::vector<std::string>{});
}

TEST_CASE("Tables of the same counts are shown as they were shown before", "[case-72]") {
  const auto first = publish(county());
  const std::vector<Release> earlier{first.release};
  const auto again = publish(county(), {}, earlier);
  CHECK(again.tables == first.tables);
  CHECK(again.release == first.release);
}

TEST_CASE("A table that follows an earlier one does not give away what changed between them",
          "[case-83]") {
  const auto before = county();
  auto after = before;
  after.schools[2].screened += 3; // three more, one of them urgent
  after.schools[2].consented += 3;
  after.schools[2].urgent += 1;
  after.schools[2].untreated += 1;
  after.total = sumOf(after.schools);
  const std::vector<Release> earlier{publish(before).release};
  const auto system = termCounts(after, earlier).system;
  const auto shown = suppress(system, {});
  CHECK(shown.exposed.empty());
  CHECK(attack(system, shown, {}) == std::vector<std::string>{});
  const auto first = publish(before).tables;
  REQUIRE(cell(tableCalled(first, "Findings"), "Cobble Lantern", "Screened") == "75");
  const auto second = publish(after, {}, earlier).tables;
  CHECK(cell(tableCalled(second, "Findings"), "Cobble Lantern", "Screened") == "suppressed");
}

TEST_CASE("The same totals are always suppressed in the same way") {
  CHECK(publish(county()).release == publish(county()).release);
}

TEST_CASE("That consented and screened are never both shown is said where it is so, and why",
          "[case-83]") {
  const std::string words = "Consented and screened are never both shown where fewer than 10";
  const auto isSaid = [&](const TermTotals& totals, BySchool bySchool = BySchool::all) {
    const auto table = publish(totals, *SuppressionRule::under(10, bySchool)).tables.front();
    return std::ranges::any_of(table.notes,
                               [&](const auto& note) { return note.starts_with(words); });
  };
  auto totals = county(); // all with consent were screened
  CHECK(isSaid(totals));
  const auto withUnscreened = [&](int left) {
    for (auto& one : totals.schools)
      one.consented = one.screened + left;
    totals.total = sumOf(totals.schools);
  };
  withUnscreened(2);
  CHECK(isSaid(totals));
  const auto table = publish(totals).tables.front();
  for (const auto& row : table.rows) // consented, screened, not screened
    if (row.front() != "Total") CHECK((row[3] == "suppressed" || row[5] == "suppressed"));
  CHECK_FALSE(isSaid(totals, BySchool::services)); // then both are shown
  withUnscreened(12);
  CHECK_FALSE(isSaid(totals));
}

TEST_CASE("What other pages leave fewer than five values this page does not narrow further",
          "[case-83]") {
  // 28 screened, 19 sealed and 61 teeth on last year's page, four teeth a child at most and no more
  // than 19 children: 16 to 19. The number due now is the number sealed then.
  CountSystem system;
  const auto old = [&](int value, bool isOut) {
    return system.add(
        {.value = value, .printed = false, .outAlready = isOut, .isOfOtherTerm = true});
  };
  const auto sealed = old(19, false);
  system.addRest(CountKind::rest, old(28, true), {sealed});
  system.addRest(CountKind::slack, sealed, {old(61, true)}, 4);
  system.addRest(CountKind::slack, old(19, true), {sealed});
  const auto due = system.add({.value = 19, .row = 1});
  system.sums.push_back({due, {sealed}});
  const auto shown = suppress(system, SuppressionRule{});
  CHECK(shown.leaks() == 0);
  CHECK(shown.cells[due] == Showing::withheld);
}
