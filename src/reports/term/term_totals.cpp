#include "reports/term/term_totals.h"

#include "base/contract.h"

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
    const bool isKnown = child != records.children.end();
    lines.push_back({isKnown ? child->value.number : "unknown",
                     isKnown ? std::optional(child->value.school) : std::nullopt, taken.on,
                     clinician == records.members.end() ? "unknown" : clinician->value.name,
                     taken.reason});
  }
  std::ranges::stable_sort(lines, {}, &OverrideLine::on);
  return lines;
}

} // namespace

Targets targetsOf(const roster::Benchmarks& benchmarks) {
  const auto share = [](std::optional<int> percent) {
    return percent ? std::optional(*percent / 100.0) : std::nullopt;
  };
  return {share(benchmarks.consented), share(benchmarks.screened), share(benchmarks.sealed),
          share(benchmarks.retained)};
}

TermTotals termTotals(const TermView& view, const TermOptions& options) {
  TermTotals out{view.records.term.name,
                 view.records.term.start,
                 view.records.term.end,
                 view.records.asOf,
                 targetsOf(view.records.benchmarks),
                 options.retention.window,
                 options.retention.firstPlacementsOnly,
                 participation(view),
                 {},
                 retentionTotals(RetentionFacts(view, options.retention)),
                 attackRateOf(view),
                 {},
                 overridesOf(view.records),
                 studentCounts(view),
                 shortTermChecks(view),
                 view.records.erased};
  out.total = sumOf(out.schools);
  out.averted = avertedOf({out.total.firstMolars, out.total.secondMolars}, out.attackRate,
                          out.retention.total.protected95, options.avertedYears,
                          protectedBounds(out.retention.total));
  return out;
}

TermTotals schoolTotals(TermTotals totals, const TermRecords& records, roster::SchoolId school) {
  const auto at = std::ranges::find(records.schools, school, &base::Recorded<roster::School>::id);
  base::require(at != records.schools.end(), "the school is of these records");
  totals.term += ", " + roster::shownAmong(at->value, records.schools);
  std::erase_if(totals.schools, [&](const auto& one) { return one.id != school; });
  totals.total = sumOf(totals.schools);
  std::erase_if(totals.retention.schools, [&](const auto& line) { return line.school != school; });
  totals.retention.total =
      totals.retention.schools.empty() ? RetentionLine() : totals.retention.schools.front();
  totals.retention.total.label = "Total";
  std::erase_if(totals.overrides, [&](const auto& taken) { return taken.school != school; });
  totals.attackRate = {};
  totals.attackRate.whyNot = "estimated for the program, not for " +
                             roster::shownAmong(at->value, records.schools) + " alone";
  totals.averted.averted.reset();
  totals.averted.cautious.reset();
  totals.averted.whyNot = totals.attackRate.whyNot;
  totals.averted.sealants = totals.total.firstMolars + totals.total.secondMolars;
  return totals;
}

} // namespace gk::reports
