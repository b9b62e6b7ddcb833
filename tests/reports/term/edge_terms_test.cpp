#include "reports/print/render.h"
#include "reports/records/one_term.h"
#include "reports/report.h"
#include "reports/sample.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cctype>
#include <cmath>

using namespace gk;
using namespace gk::reports;
using chairside::Condition;
using chairside::Tri;
using followup::Held;

namespace {

constexpr std::array firstMolars{16, 26, 36, 46};

/// Terms at the edge of what can be, each made so that its truth is known: own simulation. One
/// school unless it says otherwise; what is due was placed a year before.
struct EdgeTerm : test::SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 60);
  roster::DayId then = dayLastYear(here, "2025-10-14");
  roster::DayId now = day(here, "2026-10-13");

  roster::ChildId consented() {
    const auto one = child(here);
    consent(one, roster::ConsentState::yes);
    return one;
  }
  /// Placed a year ago and looked at now, all alike.
  void sealedBefore(int children, Held held) {
    for (int i = 0; i < children; ++i) {
      const auto one = consented();
      screen(one, then, {test::toSeal(16)});
      screen(one, now, {test::toSeal(26)});
      for (const int tooth : {16, 26})
        check(place(one, then, tooth), now, held);
    }
  }
  void cost(std::vector<roster::CostLine> lines) {
    records.costs.push_back(make.row<roster::DayCost>({now, std::move(lines)}));
  }
};

struct Edge {
  std::string name;
  TermRecords records;
  std::optional<roster::ProgramYear> year{};
};

TermRecords nobody() {
  return EdgeTerm().records;
}

TermRecords noConsent() {
  EdgeTerm term;
  for (int i = 0; i < 12; ++i)
    term.consent(term.child(term.here), roster::ConsentState::no);
  return term.records;
}

TermRecords oneChild() {
  EdgeTerm term;
  const auto one = term.consented();
  term.screen(one, term.now, {test::toSeal(16)});
  term.place(one, term.now, 16);
  term.cost({{roster::CostKind::staff, 100}});
  return term.records;
}

TermRecords oneChildChecked(Held held) {
  EdgeTerm term;
  term.sealedBefore(1, held);
  return term.records;
}

TermRecords allAffected(int children) {
  EdgeTerm term;
  for (int i = 0; i < children; ++i) {
    const auto one = term.consented();
    std::vector<chairside::ToothFinding> teeth;
    for (const int tooth : firstMolars)
      teeth.push_back(test::found(tooth, Condition::cavitated));
    auto& seen = term.screen(one, term.now, std::move(teeth));
    seen.untreatedDecay = Tri::yes;
    seen.treatedDecay = Tri::yes;
    seen.urgency = chairside::Urgency::urgent;
  }
  return term.records;
}

TermRecords allChecked(int children, Held held) {
  EdgeTerm term;
  term.sealedBefore(children, held);
  return term.records;
}

/// Sealed at one school, found at another.
TermRecords moved() {
  EdgeTerm term;
  const auto there = term.school("Brindle Quay Elementary", 40);
  const auto day = term.day(there, "2026-10-20");
  for (int i = 0; i < 10; ++i) {
    const auto one = term.consented();
    term.records.children.back().value.school = there;
    term.screen(one, term.then, {test::toSeal(16)});
    term.screen(one, day, {test::toSeal(26)});
    term.check(term.place(one, term.then, 16), day, i < 8 ? Held::whole : Held::lost);
  }
  return term.records;
}

TermRecords nothingCost() {
  EdgeTerm term;
  term.sealedBefore(12, Held::whole);
  for (const auto& row : std::vector(term.records.children))
    term.place(row.id, term.now, 36);
  term.cost({});
  return term.records;
}

/// More forms than the school said it has students.
TermRecords moreThanEnrolled() {
  EdgeTerm term;
  for (int i = 0; i < 75; ++i)
    term.screen(term.consented(), term.now, {test::toSeal(16)});
  return term.records;
}

TermRecords noneFound() {
  EdgeTerm term;
  for (int i = 0; i < 12; ++i)
    term.place(term.consented(), term.then, 16);
  return term.records;
}

/// Sealed in two terms before, both due now.
TermRecords twoCohorts() {
  EdgeTerm term;
  const auto later = term.dayLastYear(term.here, "2026-01-12");
  for (int i = 0; i < 20; ++i) {
    const auto one = term.consented();
    term.screen(one, term.now, {test::toSeal(36)});
    term.check(term.place(one, i % 2 ? term.then : later, 16), term.now,
               i < 15 ? Held::whole : Held::lost);
  }
  return term.records;
}

TermRecords asYear(const TermRecords& records, const roster::ProgramYear& year) {
  return asOneTerm({records}, year, records.asOf);
}

std::vector<Edge> edges() {
  const roster::ProgramYear school{"2026-27", roster::YearKind::school, test::date("2026-08-01"),
                                   test::date("2027-07-31")};
  const roster::ProgramYear fiscal{"FY27", roster::YearKind::fiscal, test::date("2026-10-01"),
                                   test::date("2027-09-30")};
  const roster::ProgramYear before{"FY26", roster::YearKind::fiscal, test::date("2025-07-01"),
                                   test::date("2026-09-30")}; // of the term no day
  std::vector<Edge> all{{"nobody", nobody()},
                        {"no consent", noConsent()},
                        {"one child", oneChild()},
                        {"one child, whole", oneChildChecked(Held::whole)},
                        {"one child, lost", oneChildChecked(Held::lost)},
                        {"one child, cannot assess", oneChildChecked(Held::cannotAssess)},
                        {"one child affected", allAffected(1)},
                        {"all affected", allAffected(40)},
                        {"all whole", allChecked(30, Held::whole)},
                        {"all lost", allChecked(30, Held::lost)},
                        {"none assessable", allChecked(12, Held::cannotAssess)},
                        {"moved", moved()},
                        {"nothing cost", nothingCost()},
                        {"more than enrolled", moreThanEnrolled()},
                        {"none found", noneFound()},
                        {"two cohorts", twoCohorts()}};
  for (const auto& [year, records] :
       {std::pair(school, allChecked(30, Held::whole)), std::pair(fiscal, allAffected(40)),
        std::pair(before, oneChild()), std::pair(school, noConsent())})
    all.push_back({"year " + year.name, asYear(records, year), year});
  return all;
}

/// Every report of it, with figures set to their ends where a report takes any.
std::vector<std::pair<std::string, std::vector<Table>>> reportsOf(const Edge& edge) {
  std::vector<std::pair<std::string, std::vector<Table>>> out;
  for (std::size_t i = 0; i < base::enumCount<ReportKind>; ++i) {
    const auto kind = static_cast<ReportKind>(i);
    ReportOptions options;
    options.today = edge.records.asOf;
    options.terms = {termTotals(edge.records), termTotals(edge.records)};
    if (edge.year) options.year = YearOptions{*edge.year, "The team", "Larkmere County"};
    if (kind == ReportKind::state && !edge.year) continue;
    out.emplace_back(base::nameOf(kind), reportOf(kind, edge.records, options));
    if (kind != ReportKind::prevention) continue;
    for (const double rate : {0.0, 1.0})
      for (const double kept : {0.0, 1.0})
        for (const int years : {1, 60}) {
          options.whatIf = {.attackRate = rate, .retentionYearOne = kept, .years = years};
          options.whatIf.programCost = 0;
          options.whatIf.costPerCavity = 0;
          out.emplace_back("prevention at an end", reportOf(kind, edge.records, options));
        }
  }
  return out;
}

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
      INFO(edge.name << ", " << report);
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
