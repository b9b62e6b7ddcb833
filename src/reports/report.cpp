#include "reports/report.h"

#include "reports/finding_report.h"
#include "reports/quality_report.h"
#include "reports/term_tables.h"

namespace gk::reports {

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
  }
  base::fail("no such report");
}

std::string reportTitle(ReportKind kind, const TermRecords& records) {
  std::string name(base::nameOf(kind));
  name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return name + ": " + records.term.name;
}

} // namespace gk::reports
