#include "support/samples/edge_terms.h"

#include "reports/records/one_term.h"

#include <array>

using namespace gk::reports;

namespace gk::test {

using chairside::Condition;
using chairside::Tri;
using followup::Held;

namespace {

constexpr std::array firstMolars{16, 26, 36, 46};

} // namespace

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
  term.screen(one, term.now, {toSeal(16)});
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
      teeth.push_back(found(tooth, Condition::cavitated));
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
    term.screen(one, term.then, {toSeal(16)});
    term.screen(one, day, {toSeal(26)});
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
    term.screen(term.consented(), term.now, {toSeal(16)});
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
    term.screen(one, term.now, {toSeal(36)});
    term.check(term.place(one, i % 2 ? term.then : later, 16), term.now,
               i < 15 ? Held::whole : Held::lost);
  }
  return term.records;
}

static TermRecords asYear(const TermRecords& records, const roster::ProgramYear& year) {
  return asOneTerm({records}, year, records.asOf);
}

std::vector<Edge> edges() {
  const roster::ProgramYear school{"2026-27", roster::YearKind::school, date("2026-08-01"),
                                   date("2027-07-31")};
  const roster::ProgramYear fiscal{"FY27", roster::YearKind::fiscal, date("2026-10-01"),
                                   date("2027-09-30")};
  const roster::ProgramYear before{"FY26", roster::YearKind::fiscal, date("2025-07-01"),
                                   date("2026-09-30")}; // of the term no day
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

std::vector<std::pair<ReportKind, std::vector<Table>>> reportsOf(const Edge& edge) {
  std::vector<std::pair<ReportKind, std::vector<Table>>> out;
  for (std::size_t i = 0; i < base::enumCount<ReportKind>; ++i) {
    const auto kind = static_cast<ReportKind>(i);
    ReportOptions options;
    options.today = edge.records.asOf;
    options.terms = {termTotals(edge.records), termTotals(edge.records)};
    if (edge.year) options.year = YearOptions{*edge.year, "The team", "Larkmere County"};
    if (kind == ReportKind::state && !edge.year) continue;
    out.emplace_back(kind, reportOf(kind, edge.records, options));
    if (kind != ReportKind::prevention) continue;
    for (const double rate : {0.0, 1.0})
      for (const double kept : {0.0, 1.0})
        for (const int years : {1, 60}) {
          options.whatIf = {.attackRate = rate, .retentionYearOne = kept, .years = years};
          options.whatIf.programCost = 0;
          options.whatIf.costPerCavity = 0;
          out.emplace_back(kind, reportOf(kind, edge.records, options));
        }
  }
  return out;
}

} // namespace gk::test
