#include "reports/funder/funder_figures.h"

#include "reports/print/cells.h"

#include <algorithm>
#include <charconv>

namespace gk::reports {

namespace {

std::string withRange(const estimates::AvertedEstimate& one) {
  return base::fixed(one.averted, 0) + (one.interval
                                            ? " (" + base::fixed(one.interval->low, 0) + "-" +
                                                  base::fixed(one.interval->high, 0) + ")"
                                            : "");
}

} // namespace

std::string totalUnder(const Table& table, std::string_view heading) {
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].heading == heading) return table.rows.back()[i];
  base::fail("no such column");
}

std::string periodWords(const TermTotals& totals) {
  return totals.start.words() + " to " + std::min(totals.asOf, totals.end).words();
}

int lotsSetAside(const TermRecords& records) {
  return static_cast<int>(
      std::ranges::count_if(records.lots, [](const auto& row) { return row.value.quarantined; }));
}

std::string reached(double target, const std::string& actual) {
  double share = 0;
  const bool isNumber =
      std::from_chars(actual.data(), actual.data() + actual.size(), share).ec == std::errc{};
  if (!isNumber) return nothing;
  return share >= 100 * target ? "yes" : "below";
}

std::vector<std::pair<std::string, std::string>>
sparedFigures(const TermTotals& totals, bool teethAreShown, bool checksAreShown) {
  const auto& averted = totals.averted;
  const auto what = "Cavities averted in " + counted(averted.years, "year", "years");
  if (!teethAreShown) return {{what, "suppressed"}};
  if (!averted.averted || !averted.cautious) return {{what, averted.whyNot}};
  std::vector<std::pair<std::string, std::string>> out{
      {what + ", full protection while retained (range)", withRange(*averted.averted)}};
  if (averted.ifNotLookedAt && checksAreShown)
    out.emplace_back("If none, and if all, of the unchecked teeth due are protected",
                     base::fixed(averted.ifNotLookedAt->low, 0) + "-" +
                         base::fixed(averted.ifNotLookedAt->high, 0));
  out.emplace_back("The same at " + base::fixed(estimates::cautiousEfficacy, 2) +
                       " of full protection",
                   withRange(*averted.cautious));
  return out;
}

} // namespace gk::reports
