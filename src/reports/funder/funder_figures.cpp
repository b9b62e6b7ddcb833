#include "reports/funder/funder_figures.h"

#include "reports/print/cells.h"

#include <algorithm>

namespace gk::reports {

const Cell& totalOf(const Table& table, std::string_view key) {
  return table.rows.back()[columnOf(table, key)];
}

std::string periodWords(const TermTotals& totals) {
  return totals.start.words() + " to " + std::min(totals.asOf, totals.end).words();
}

int lotsSetAside(const TermRecords& records) {
  return static_cast<int>(
      std::ranges::count_if(records.lots, [](const auto& row) { return row.value.quarantined; }));
}

Cell reached(double target, const Cell& actual) {
  const auto* share = actual.as<Share>();
  if (!share) return noFigure;
  return share->printed() >= target ? "yes" : "below";
}

Cell reachedByCi(double target, const Cell& actual, const RetentionLine& line) {
  if (!actual.as<Share>()) return noFigure;
  switch (againstBenchmark(target, line)) {
  case AgainstBenchmark::met:
    return "yes";
  case AgainstBenchmark::below:
    return "below";
  case AgainstBenchmark::cannotTell:
    break;
  }
  return "unsure";
}

namespace {

bool hasColumn(const Table& table, std::string_view key) {
  return std::ranges::any_of(table.columns,
                             [&](const Column& column) { return keyOf(column) == key; });
}

} // namespace

std::string_view sealedOfNeeding(const Table& services) {
  return hasColumn(services, "sealed_in_need") ? "sealed_in_need" : "sealed";
}

std::string_view varnishOfScreened(const Table& services) {
  return hasColumn(services, "varnish_screened") ? "varnish_screened" : "varnish";
}

bool wereAllScreened(const Table& services) {
  return !hasColumn(services, "sealed_in_need");
}

std::vector<std::pair<std::string, Cell>> sparedFigures(const TermTotals& totals,
                                                        bool teethAreShown, bool checksAreShown) {
  const auto& averted = totals.averted;
  const auto what = "Cavities averted in " + counted(averted.years, "year", "years");
  if (!teethAreShown) return {{what, Withheld{}}};
  if (!averted.averted || !averted.cautious) return {{what, averted.whyNot}};
  std::vector<std::pair<std::string, Cell>> out{
      {what + ", if protected while retained (range)", avertedCell(*averted.averted)}};
  if (averted.ifNotLookedAt && checksAreShown)
    out.emplace_back("If none, and if all, of those not assessed are protected",
                     Range{averted.ifNotLookedAt->low, averted.ifNotLookedAt->high, 0});
  // Short: in two lines it takes the page a second sheet.
  out.emplace_back("Averted at " + base::fixed(estimates::cautiousEfficacy, 2) +
                       " of full protection",
                   avertedCell(*averted.cautious));
  return out;
}

} // namespace gk::reports
