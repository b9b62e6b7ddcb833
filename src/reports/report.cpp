#include "reports/report.h"

#include "base/text.h"
#include "reports/decay/finding_report.h"
#include "reports/display_names.h"
#include "reports/funder/effort_report.h"
#include "reports/funder/funder_report.h"
#include "reports/funder/published_grades.h"
#include "reports/print/said_choice.h"
#include "reports/quality/quality_report.h"
#include "reports/quality/trace.h"
#include "reports/records/term_view.h"
#include "reports/records/words.h"
#include "reports/services/cost_report.h"
#include "reports/services/payer_report.h"
#include "reports/services/referral_report.h"
#include "reports/term/term_tables.h"
#include "reports/term/terms_report.h"

#include <algorithm>

namespace gk::reports {

namespace {

std::vector<Table> traced(const TermRecords& records, const ReportOptions& options) {
  if (options.lot.empty() && options.light.empty()) return traceOverview(records);
  auto found = options.lot.empty() ? traceLight(records, options.light)
                                   : traceLot(records, options.lot, options.material);
  base::require(found.has_value(), "the lot or light is on the list");
  return *std::move(found);
}

/// What is counted of the care, then what it took.
std::vector<Table> termReport(const TermRecords& records, std::optional<roster::SchoolId> school) {
  auto totals = termTotals(records);
  if (school) totals = schoolTotals(std::move(totals), records, *school);
  auto tables = termTables(totals);
  const auto schools = school ? effortsOf(efforts(records), *school) : efforts(records);
  std::vector<Table> besides{staffTable(schools)};
  if (auto meals = mealsTable(schools)) besides.push_back(*std::move(meals));
  // What was spared ends it, with the cautions.
  tables.insert(tables.end() - 1, besides.begin(), besides.end());
  if (school) sayChoice(tables, TermView(records).schoolName(*school));
  return tables;
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

std::vector<Table> inHouse(ReportKind kind, const TermRecords& records,
                           const ReportOptions& options) {
  switch (kind) {
  case ReportKind::term:
    return termReport(records, options.school);
  case ReportKind::retention:
    return retentionReport(records, {options.comparison, options.curve, options.school});
  case ReportKind::quality:
    return qualityReport(records, options.comparison);
  case ReportKind::findings:
    return findingReport(records);
  case ReportKind::prevention:
    return preventionReport(termTotals(records), options.whatIf);
  case ReportKind::followUp:
    return referralReport(records, options.today.value_or(records.asOf));
  case ReportKind::trace:
    return traced(records, options);
  case ReportKind::payers:
    return payerReport(records);
  case ReportKind::terms:
    return termsReport(options.terms);
  case ReportKind::cost:
    return costReport(records, termTotals(records));
  case ReportKind::state:
  case ReportKind::funder:
  case ReportKind::funderAnnex:
    break;
  }
  base::fail("no such report");
}

} // namespace

bool isPublished(ReportKind kind) {
  return kind == ReportKind::funder || kind == ReportKind::funderAnnex || kind == ReportKind::state;
}

bool partsBy(ReportKind kind, Factor factor) {
  return kind == ReportKind::term || (kind == ReportKind::retention && factor == Factor::school);
}

Report makeReport(ReportKind kind, const TermRecords& records, const ReportOptions& options) {
  if (!isPublished(kind)) return {inHouse(kind, records, options)};
  if (kind == ReportKind::state) {
    base::require(options.year.has_value(), "a state's report is of a year");
    auto made =
        stateReport(records, *options.year, options.suppression, options.earlier, options.groups);
    return {std::move(made.tables), std::move(made.release), made.exposed};
  }
  const auto totals = termTotals(records);
  const auto today = options.today.value_or(records.asOf);
  auto published = publish(totals, options.suppression, options.earlier, options.groups);
  addGrades(published, participationByGrade(records, totals), totals, options.suppression,
            options.earlier, options.bands);
  const auto make = kind == ReportKind::funder ? funderSummary : funderAnnex;
  return {make(records, totals, published, options.suppression, today),
          std::move(published.release), published.exposed};
}

std::vector<Table> reportOf(ReportKind kind, const TermRecords& records,
                            const ReportOptions& options) {
  return makeReport(kind, records, options).tables;
}

std::string choiceOf(ReportKind kind, const TermRecords& records, const ReportOptions& options) {
  if ((kind == ReportKind::retention || kind == ReportKind::term) && options.school) {
    const auto at =
        std::ranges::find(records.schools, *options.school, &base::Recorded<roster::School>::id);
    base::require(at != records.schools.end(), "the school is of these records");
    return "school " + at->value.code;
  }
  if (options.year) return roster::wordsOf(options.year->year);
  if (kind == ReportKind::trace && !options.lot.empty()) return "lot " + options.lot;
  if (kind == ReportKind::trace && !options.light.empty()) return "light " + options.light;
  return kind == ReportKind::prevention ? whatIfWords(options.whatIf) : std::string();
}

std::string reportTitle(ReportKind kind, const TermRecords& records, const std::string& choice) {
  if (kind == ReportKind::funder) return "Funder's summary: " + records.term.name;
  if (kind == ReportKind::funderAnnex) return "Funder's annex: " + records.term.name;
  if (kind == ReportKind::terms) return "Terms side by side: " + records.term.name;
  if (kind == ReportKind::state) return "State report: " + records.term.name;
  std::string name(base::displayName(kind));
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  const bool isSaid = choice.empty() || choice == records.term.name;
  return name + ": " + records.term.name + (isSaid ? "" : ", " + choice);
}

} // namespace gk::reports
