#include "reports/term_totals.h"

#include <algorithm>

namespace gk::reports {

namespace {

std::vector<OverrideLine> overridesOf(const TermRecords& records) {
  std::vector<OverrideLine> lines;
  for (const auto& row : records.overrides) {
    const auto& taken = row.value;
    if (taken.on < records.term.start || taken.on > records.asOf) continue;
    const auto child =
        std::ranges::find(records.children, taken.child, &base::Recorded<roster::Child>::id);
    const auto clinician =
        std::ranges::find(records.members, taken.clinician, &base::Recorded<roster::Member>::id);
    lines.push_back({child == records.children.end() ? "unknown" : child->value.number, taken.on,
                     clinician == records.members.end() ? "unknown" : clinician->value.name,
                     taken.reason});
  }
  std::ranges::stable_sort(lines, {}, &OverrideLine::on);
  return lines;
}

} // namespace

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
                 retentionTotals(RetentionFacts(records, options.retention)),
                 attackRateOf(records),
                 {},
                 overridesOf(records)};
  out.total = sumOf(out.schools);
  out.averted = avertedOf(out.total.firstMolars + out.total.secondMolars, out.attackRate,
                          out.retention.total.whole95, options.avertedYears);
  return out;
}

} // namespace gk::reports
