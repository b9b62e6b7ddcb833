#include "reports/report.h"

#include "base/text/text.h"
#include "reports/compare/retention_plots.h"
#include "reports/decay/finding_report.h"
#include "reports/display_names.h"
#include "reports/funder/funder_referrals.h"
#include "reports/funder/funder_report.h"
#include "reports/funder/published_grades.h"
#include "reports/print/render.h"
#include "reports/print/said_choice.h"
#include "reports/quality/quality_report.h"
#include "reports/quality/trace.h"
#include "reports/records/term_view.h"
#include "reports/records/words.h"
#include "reports/retention/display_names.h"
#include "reports/retention/retention_table.h"
#include "reports/services/cost_report.h"
#include "reports/services/payer_report.h"
#include "reports/services/referral_report.h"
#include "reports/term/chosen_tables.h"
#include "reports/term/term_tables.h"
#include "reports/term/terms_report.h"

#include <algorithm>

namespace gk::reports {

namespace {

std::vector<Table> traced(const TermView& view, const ReportOptions& options) {
  if (options.lot.empty() && options.light.empty()) return traceOverview(view);
  auto found = options.lot.empty() ? traceLight(view, options.light)
                                   : traceLot(view, options.lot, options.material);
  base::require(found.has_value(), "the lot or light is on the list");
  return *std::move(found);
}

Table factorTable(const RetentionFacts& facts, const TermChoice& choice) {
  const auto lines = retentionBy(facts, *choice.by, choice.sealants);
  auto table = retentionTable("Retention by " + named(*choice.by) + ", " + choice.words, lines);
  table.key = byFactor;
  table.plot = linesPlot(lines, *choice.by, retentionLine(facts, choice.sealants));
  return table;
}

std::string whatIfWords(const WhatIf& whatIf) {
  std::vector<std::string> words;
  const auto add = [&](const std::string& what, const std::optional<double>& value) {
    if (value) words.push_back(what + " " + base::fixed(*value, 4));
  };
  add("attack rate", whatIf.attackRate);
  add("retention", whatIf.retentionYearOne);
  if (whatIf.firstMolarsOnly) words.emplace_back("first molars");
  add("program cost", whatIf.programCost);
  add("cost per cavity", whatIf.costPerCavity);
  if (whatIf.years != WhatIf{}.years) words.push_back(base::counted(whatIf.years, "year", "years"));
  return base::join(words, ", ");
}

std::vector<Table> inHouse(ReportKind kind, const TermView& view, const ReportOptions& options) {
  switch (kind) {
  case ReportKind::term:
    return termReport(view.records, CountedTerm(view), {.school = options.school});
  case ReportKind::retention:
    return retentionReport(view, {options.comparison, options.curve, options.school});
  case ReportKind::quality:
    return qualityReport(view, options.comparison);
  case ReportKind::findings:
    return findingReport(view);
  case ReportKind::prevention:
    return preventionReport(termTotals(view), options.whatIf);
  case ReportKind::followUp:
    return referralReport(view, options.today.value_or(view.records.asOf));
  case ReportKind::trace:
    return traced(view, options);
  case ReportKind::payers:
    return payerReport(view);
  case ReportKind::terms:
    return termsReport(options.terms, options.year ? SideBySide::years : SideBySide::terms,
                       options.school);
  case ReportKind::cost:
    return costReport(view, termTotals(view));
  case ReportKind::state:
  case ReportKind::funder:
  case ReportKind::funderAnnex:
  case ReportKind::schoolPage:
    break;
  }
  base::fail("no such report");
}

} // namespace

CountedTerm::CountedTerm(const TermView& view)
    : facts(view), totals(termTotals(view)), efforts(reports::efforts(view)) {}

TermTotals CountedTerm::of(std::optional<roster::SchoolId> school,
                           const TermRecords& records) const {
  return school ? schoolTotals(totals, records, *school) : totals;
}

std::vector<Table> termReport(const TermRecords& records, const CountedTerm& counted,
                              const TermChoice& choice) {
  const bool isNarrow = choosesMoreThanSchool(choice.sealants);
  auto tables = isNarrow
                    ? chosenTermTables(counted.totals, counted.facts, choice.sealants, choice.words)
                    : termTables(counted.of(choice.school, records));
  const auto schools = choice.school ? effortsOf(counted.efforts, *choice.school) : counted.efforts;
  // What was spared ends it, with the cautions.
  const auto add = [&](const Table& table) {
    tables.insert(tables.end() - 1, isNarrow ? notParted(table, choice.words) : table);
  };
  add(staffTable(schools));
  if (const auto meals = mealsTable(schools)) add(*meals);
  if (choice.by) tables.push_back(factorTable(counted.facts, choice));
  if (choice.school) sayChoice(tables, TermView(records).schoolName(*choice.school));
  return tables;
}

bool isPublished(ReportKind kind) {
  return kind == ReportKind::funder || kind == ReportKind::funderAnnex ||
         kind == ReportKind::state || kind == ReportKind::schoolPage;
}

std::string_view markOf(ReportKind kind) {
  return isPublished(kind) ? std::string_view() : internalMark;
}

bool partsBy(ReportKind kind, Factor factor) {
  const bool isBySchool =
      kind == ReportKind::retention || kind == ReportKind::terms || kind == ReportKind::schoolPage;
  return kind == ReportKind::term || (isBySchool && factor == Factor::school);
}

Report makeReport(ReportKind kind, const TermView& view, const ReportOptions& options) {
  if (!isPublished(kind)) return {inHouse(kind, view, options)};
  if (kind == ReportKind::state) {
    base::require(options.year.has_value(), "a state's report is of a year");
    auto made =
        stateReport(view, *options.year, options.suppression, options.earlier, options.groups);
    return {std::move(made.tables), std::move(made.release), made.exposed};
  }
  const auto totals = termTotals(view);
  const auto today = options.today.value_or(view.records.asOf);
  auto published = publish(totals, options.suppression, options.earlier, options.groups);
  addGrades(published, participationByGrade(view, totals), totals, options.suppression,
            options.earlier, options.bands);
  const auto& rule = options.suppression;
  addReferrals(published, view, rule, today, options.earlier);
  auto tables = kind == ReportKind::funder ? funderSummary(totals, published, rule, options.page)
                : kind == ReportKind::schoolPage
                    ? schoolPages(totals, published, rule, options.page.program, options.school)
                    : funderAnnex(view, totals, published, rule);
  return {std::move(tables), std::move(published.release), published.exposed};
}

std::vector<Table> reportOf(ReportKind kind, const TermView& view, const ReportOptions& options) {
  return makeReport(kind, view, options).tables;
}

std::string choiceOf(ReportKind kind, const TermRecords& records, const ReportOptions& options) {
  if (partsBy(kind, Factor::school) && options.school) {
    const auto at =
        std::ranges::find(records.schools, *options.school, &base::Recorded<roster::School>::id);
    base::require(at != records.schools.end(), "the school is of these records");
    return (options.year ? roster::wordsOf(options.year->year) + ", " : "") + "school " +
           at->value.code;
  }
  if (options.year) return roster::wordsOf(options.year->year);
  if (kind == ReportKind::trace && !options.lot.empty()) return "lot " + options.lot;
  if (kind == ReportKind::trace && !options.light.empty()) return "light " + options.light;
  return kind == ReportKind::prevention ? whatIfWords(options.whatIf) : std::string();
}

std::string reportTitle(ReportKind kind, const TermRecords& records, const std::string& choice) {
  if (kind == ReportKind::funder) return "Funder's summary: " + records.term.name;
  if (kind == ReportKind::funderAnnex) return "Funder's annex: " + records.term.name;
  if (kind == ReportKind::schoolPage)
    return (choice.empty() ? "School pages: " : "School page: ") + records.term.name +
           (choice.empty() ? "" : ", " + choice);
  if (kind == ReportKind::terms) { // the choice of a year's begins with the year
    const auto& name = records.term.name;
    if (choice == name || choice.starts_with(name + ", ")) return "Years side by side: " + choice;
    return "Terms side by side: " + name + (choice.empty() ? "" : ", " + choice);
  }
  if (kind == ReportKind::state) return "State report: " + records.term.name;
  std::string name(base::displayName(kind));
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  const bool isSaid = choice.empty() || choice == records.term.name;
  return name + ": " + records.term.name + (isSaid ? "" : ", " + choice);
}

} // namespace gk::reports
