#include "reports/term_totals.h"

namespace gk::reports {

TermTotals termTotals(const TermRecords& records, const TermOptions& options) {
  TermTotals out{records.term.name,
                 records.term.start,
                 records.term.end,
                 records.asOf,
                 options.targets,
                 options.retention.window,
                 options.retention.firstPlacementsOnly,
                 participation(records),
                 {},
                 retentionTotals(records, options.retention),
                 attackRateOf(records),
                 {}};
  out.total = sumOf(out.schools);
  out.averted = avertedOf(out.total.firstMolars + out.total.secondMolars, out.attackRate,
                          out.retention.total.whole95, options.avertedYears);
  return out;
}

} // namespace gk::reports
