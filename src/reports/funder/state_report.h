#pragma once

#include "reports/decay/finding_measures.h"
#include "reports/print/table.h"
#include "reports/publish/published_counts.h"
#include "roster/program/program_year.h"

namespace gk::reports {

/// Of a report over a year.
struct YearOptions {
  roster::ProgramYear year;
  std::string program;
  std::string county;
};

struct StateReport {
  std::vector<Table> tables;
  Release release;
  int exposed = 0; ///< small counts within reach all the same: it may not go out
};

/// What a state asks of a year: whose children, indicators by grade, participation and services by
/// school, retention by placing school; small numbers suppressed. `records` are a year's, as
/// `asOneTerm` makes them; `earlier` is what went out of its terms and of the year, oldest first.
StateReport stateReport(const TermView& view, const YearOptions& year, const SuppressionRule& rule,
                        std::span<const Release> earlier, const Groups& groups);

/// What it is counted from, and through which day.
struct StateCounts {
  TermTotals totals;
  std::vector<SeenChild> seen;
  base::Date asOf;
};
StateReport stateReport(const StateCounts& counts, const YearOptions& year,
                        const SuppressionRule& rule, std::span<const Release> earlier,
                        const Groups& groups);

/// All figures of its tables as one table, a figure a row: the file that a state loads. Columns:
/// docs/formats.md.
Table stateFigures(std::span<const Table> tables, base::Date asOf, const YearOptions& year);

} // namespace gk::reports
