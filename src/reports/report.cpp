#include "reports/report.h"

#include "reports/finding_report.h"
#include "reports/funder_report.h"
#include "reports/quality_report.h"
#include "reports/referral_report.h"
#include "reports/term_tables.h"
#include "reports/trace.h"

namespace gk::reports {

namespace {

std::vector<Table> traced(const TermRecords& records, const ReportOptions& options) {
  if (options.lot.empty() && options.light.empty()) return traceOverview(records);
  auto found =
      options.lot.empty() ? traceLight(records, options.light) : traceLot(records, options.lot);
  base::require(found.has_value(), "the lot or light is on the list");
  return *std::move(found);
}

} // namespace

std::vector<Table> reportOf(ReportKind kind, const TermRecords& records,
                            const ReportOptions& options) {
  switch (kind) {
  case ReportKind::term:
    return termTables(termTotals(records));
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
  case ReportKind::funder:
    return funderReport(records, termTotals(records), options.suppression,
                        options.today.value_or(records.asOf), options.version);
  }
  base::fail("no such report");
}

std::string reportTitle(ReportKind kind, const TermRecords& records) {
  std::string name(base::nameOf(kind));
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return name + ": " + records.term.name;
}

} // namespace gk::reports
