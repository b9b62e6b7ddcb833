#include "reports/report.h"
#include "reports/sample.h"
#include "reports/term/chosen_tables.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace gk;
using namespace gk::reports;

namespace {

/// Two schools whose sealants are a year old, and one that has none.
struct TwoSchools : test::SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::SchoolId there = school("Brindle Quay Elementary", 98);
  roster::SchoolId without = school("Fennel Ridge Elementary", 88);

  TwoSchools() {
    for (const auto at : {here, there}) {
      const auto then = dayLastYear(at, "2025-10-14");
      const auto now = day(at, "2026-10-13");
      for (int i = 0; i < 12; ++i) {
        const auto one = child(at);
        records.children.back().value.grade = i % 2 ? "2" : "3";
        consent(one, roster::ConsentState::yes);
        screen(one, now, {test::toSeal(16)});
        for (const int tooth : {26, 36}) {
          const auto sealant = place(one, then, tooth);
          auto& placed = records.placements.back().value;
          placed.isolation =
              i < 6 ? chairside::Isolation::rubberDam : chairside::Isolation::cottonRolls;
          if (i % 3 == 0) placed.placedBy = wren;
          auto& look = check(sealant, now, i % 4 ? followup::Held::whole : followup::Held::lost);
          if (i < 3) look.kind = followup::CheckKind::opportunistic;
        }
      }
    }
  }

  base::MemberId wren = make.id<base::MemberId>();

  /// As if something else had become of each sealant but those: what is of those stays as it is.
  [[nodiscard]] TermRecords spoilt(const std::set<chairside::PlacementId>& but) const {
    auto out = records;
    for (auto& look : out.checks) {
      if (but.contains(look.value.placement)) continue;
      auto& held = look.value.occlusal;
      held = held == followup::Held::whole ? followup::Held::lost : followup::Held::whole;
    }
    return out;
  }
  [[nodiscard]] std::set<chairside::PlacementId> placedAt(roster::SchoolId at) const {
    std::set<chairside::PlacementId> out;
    for (const auto& row : records.placements)
      for (const auto& on : records.days)
        if (on.id == row.value.day && on.value.school == at) out.insert(row.id);
    return out;
  }
};

bool saysAny(const std::vector<std::string>& texts, const std::string& words) {
  return std::ranges::any_of(
      texts, [&](const auto& text) { return text.find(words) != std::string::npos; });
}

/// On its title, in a note or in a cell.
bool bears(const Table& table, const std::string& words) {
  return saysAny({table.title}, words) || saysAny(table.notes, words) ||
         std::ranges::any_of(table.rows,
                             [&](const auto& row) { return saysAny(textsOf(row), words); });
}

/// Its rows but for p, which is adjusted for all comparisons of the report.
std::vector<std::vector<std::string>> figures(const Table& table) {
  auto rows = test::rowsOf(table);
  for (auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i)
      if (table.columns[i].heading == "p") row[i].clear();
  return rows;
}

} // namespace

TEST_CASE("With one school chosen each table of a report is of it alone, or says that it is of all",
          "[case-186]") {
  const TwoSchools book;
  const auto elsewhere = book.spoilt(book.placedAt(book.here));
  const auto anywhere = book.spoilt({});
  for (std::size_t i = 0; i < base::enumCount<ReportKind>; ++i) {
    const auto kind = static_cast<ReportKind>(i);
    if (!partsBy(kind, Factor::school)) continue;
    for (const auto& [school, name, other] :
         {std::tuple(book.here, "Cobble Lantern Elementary", &elsewhere),
          std::tuple(book.without, "Fennel Ridge Elementary", &anywhere)}) {
      ReportOptions options;
      options.school = school;
      options.terms = {termTotals(book.records)};
      const auto tables = reportOf(kind, book.records, options);
      options.terms = {termTotals(*other)};
      const auto after = reportOf(kind, *other, options);
      REQUIRE(tables.size() == after.size());
      int obey = 0;
      for (std::size_t at = 0; at < tables.size(); ++at) {
        CAPTURE(base::nameOf(kind), name, tables[at].title);
        CHECK(bears(tables[at], name));
        const bool comparesSchools =
            saysAny(tables[at].notes, "Of all schools: " + std::string(name)) ||
            saysAny(tables[at].notes, "alone, but where schools are compared.");
        if (comparesSchools) continue;
        CHECK(figures(tables[at]) == figures(after[at]));
        ++obey;
      }
      CHECK(obey + 3 >= static_cast<int>(tables.size()));
    }
  }
}

TEST_CASE(
    "With grade, isolation or operator chosen each table is of those sealants or is not shown",
    "[case-186]") {
  const TwoSchools book;
  const RetentionFacts facts(book.records);
  const auto totals = book.totals();
  for (const auto factor : {Factor::grade, Factor::isolation, Factor::placedBy, Factor::tooth}) {
    CHECK(partsBy(ReportKind::term, factor));
    CHECK_FALSE(partsBy(ReportKind::retention, factor));
    for (FactorCode code = 0; code < facts.labels(factor).size(); ++code) {
      Choice choice;
      choice.of(factor) = code;
      const auto words = facts.labels(factor)[code];
      std::set<chairside::PlacementId> chosen;
      for (const auto& fact : facts.rows())
        if (choice.takes(fact)) chosen.insert(book.records.placements[fact.placement].id);
      const auto other = book.spoilt(chosen);
      const RetentionFacts otherFacts(other);
      const auto tables = chosenTermTables(totals, facts, choice, words);
      const auto after = chosenTermTables(termTotals(other), otherFacts, choice, words);
      REQUIRE(tables.size() == after.size());
      for (std::size_t at = 0; at < tables.size(); ++at) {
        CAPTURE(base::nameOf(factor), words, tables[at].title);
        CHECK(tables[at].title.find(words) != std::string::npos);
        CHECK(figures(tables[at]) == figures(after[at]));
        if (tables[at].rows.empty())
          CHECK(saysAny(tables[at].notes, "is not parted by this choice (" + words + ")"));
      }
    }
  }
}
