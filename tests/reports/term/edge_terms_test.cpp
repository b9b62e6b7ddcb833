#include "reports/print/render.h"
#include "reports/report.h"
#include "support/samples/edge_terms.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <cmath>

using namespace gk;
using namespace gk::reports;
using namespace gk::test;
using chairside::Condition;
using followup::Held;

namespace {

bool isIn(double value, const Range& range) {
  // Of what is printed with one decimal.
  return range.low - 5e-4 <= value && value <= range.high + 5e-4;
}

/// What no figure may be, whatever was counted; empty where it is none of that.
std::string absurdity(const Cell& cell) {
  const auto* share = cell.as<Share>();
  const auto* number = cell.as<Number>();
  const auto* range = cell.as<Range>();
  const auto* estimate = cell.as<Estimate>();
  if (estimate) {
    if (const auto found =
            std::visit([](const auto& value) { return absurdity(Cell(value)); }, estimate->value);
        !found.empty())
      return found;
    if (!estimate->range) return {};
    if (const auto found = absurdity(Cell(*estimate->range)); !found.empty()) return found;
    const double value =
        std::visit([](const auto& one) { return static_cast<double>(one.value); }, estimate->value);
    return isIn(value, *estimate->range) ? "" : "outside its interval";
  }
  if (share && !(0 <= share->value && share->value <= 1)) return "a share above 100% or below 0";
  if (number && !std::isfinite(number->value)) return "no number";
  if (range) {
    if (!(range->low <= range->high)) return "an interval upside down";
    if (!range->decimals && !(0 <= range->low && range->high <= 1))
      return "an interval past its end";
  }
  if (const auto* of = cell.as<OutOf>(); of && !(0 <= of->part && of->part <= of->whole))
    return "more than all";
  if (const auto* count = cell.as<Count>(); count && count->value < 0) return "a count below 0";
  return {};
}

/// What no page may say.
std::string absurdWords(const std::string& page) {
  std::string small;
  for (const char letter : page)
    small += static_cast<char>(letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter);
  for (const std::string word : {" nan", "(nan", "-nan", " inf ", " inf)", "-inf", "1e+", "e-0"})
    if (small.find(word) != std::string::npos) return word;
  for (std::size_t at = small.find("%"); at != std::string::npos; at = small.find("%", at + 1)) {
    auto from = at;
    while (from > 0 && (std::isdigit(small[from - 1]) != 0 || small[from - 1] == '.'))
      --from;
    if (from < at && std::stod(small.substr(from, at - from)) > 100)
      return small.substr(from, at - from + 1);
  }
  return {};
}

} // namespace

TEST_CASE("No report of a term at the edge prints a figure that cannot be", "[case-392]") {
  for (const auto& edge : edges())
    for (const auto& [report, tables] : reportsOf(edge)) {
      INFO(edge.name << ", " << base::nameOf(report));
      CHECK(absurdWords(toText(tables)) == "");
      for (const auto& table : tables)
        for (std::size_t row = 0; row < table.rows.size(); ++row)
          for (std::size_t column = 0; column < table.columns.size(); ++column) {
            const auto found = absurdity(table.rows[row][column]);
            if (found.empty()) continue;
            INFO(table.title << ", " << table.rows[row].front() << ", "
                             << table.columns[column].heading << ": " << table.rows[row][column]);
            CHECK(found == "");
          }
      for (const auto& table : tables)
        if (table.front)
          for (const auto& figure : table.front->figures)
            CHECK(absurdity(figure.number) == "");
    }
}

TEST_CASE("What is true of a term at the edge is what its report says", "[case-392]") {
  const auto retained = [](const TermRecords& records) {
    return termTotals(records).retention.total;
  };
  CHECK(termTotals(nobody()).total.screened == 0);
  CHECK(termTotals(noConsent()).total.formsBack == 12);
  CHECK(termTotals(noConsent()).total.consented == 0);
  CHECK(termTotals(oneChild()).total.sealed == 1);
  CHECK(termTotals(allAffected(40)).total.untreated == 40);
  CHECK(retained(allChecked(30, Held::whole)).whole == 60);
  CHECK(retained(allChecked(30, Held::lost)).whole == 0);
  CHECK(retained(allChecked(30, Held::lost)).assessable == 60);
  CHECK(retained(allChecked(12, Held::cannotAssess)).assessable == 0);
  CHECK(retained(noneFound()).due == 12);
  CHECK(retained(noneFound()).childrenFound == 0);
  CHECK(retained(twoCohorts()).due == 20);
  CHECK(retained(twoCohorts()).whole == 15);
  // By the school where they were placed, wherever they are found.
  const auto totals = termTotals(moved());
  CHECK(totals.retention.total.childrenFound == 10);
  CHECK(totals.retention.total.whole == 8);
  const auto at = [&](const std::string& school) {
    const auto line = std::ranges::find(totals.retention.schools, school, &RetentionLine::label);
    return line == totals.retention.schools.end() ? 0 : line->due;
  };
  CHECK(at("Cobble Lantern Elementary") == 10);
  CHECK(at("Brindle Quay Elementary") == 0);
}

TEST_CASE("No figure of a school is adjusted toward an average of fewer than four", "[case-393]") {
  for (const int schools : {1, 2, 3, 4}) {
    INFO(schools);
    EdgeTerm term;
    for (int i = 0; i < schools; ++i) {
      const auto here = term.school("School " + std::string(1, static_cast<char>('A' + i)), 60);
      const auto then = term.dayLastYear(here, "2025-10-14");
      const auto now = term.day(here, "2026-10-13");
      for (int child = 0; child < 8; ++child) {
        const auto one = term.child(here);
        // None of the first school's molars is affected, which no average knows better.
        term.screen(
            one, now,
            {test::found(26, i > 0 && child % 2 ? Condition::cavitated : Condition::sound)});
        term.check(term.place(one, then, 16), now, child > i ? Held::whole : Held::lost);
      }
    }
    for (const auto kind : {ReportKind::findings, ReportKind::retention}) {
      int adjusted = 0;
      bool saysWhy = false;
      for (const auto& table : reportOf(kind, term.records)) {
        for (const auto& column : table.columns)
          adjusted += column.heading.starts_with("Adjusted toward") ? 1 : 0;
        for (const auto& note : table.notes)
          saysWhy = saysWhy || note.starts_with("No school's figure is adjusted");
      }
      CHECK(adjusted == (schools < 4 ? 0 : 1));
      CHECK(saysWhy == (schools < 4));
    }
  }
}
