#include "estimates/compare/comparison_clusters.h"
#include "estimates/numbers/holm.h"
#include "reference/reference.h"

using namespace gk::estimates;

namespace gk::reference {
namespace {

Values plainValues(const Comparison& found) {
  return {{"odds", found.oddsRatio.value()},
          {"low", found.interval->low},
          {"high", found.interval->high},
          {"chi", found.chiSquared.value()},
          {"p", found.p.value()}};
}

} // namespace

Values compareRabbits(const base::CsvTable& table) {
  const auto a = numbers(table, "exposed_kept");
  const auto b = numbers(table, "exposed_lost");
  const auto c = numbers(table, "other_kept");
  const auto d = numbers(table, "other_lost");
  std::vector<Stratum> strata;
  for (std::size_t i = 0; i < a.size(); ++i)
    strata.push_back({a[i], b[i], c[i], d[i]});
  return plainValues(compare(strata).value());
}

Values compareIsolation(const base::CsvTable& table) {
  const auto children = labels(table, "child");
  const auto strata = labels(table, "stratum");
  const auto exposed = labels(table, "exposed");
  const auto kept = labels(table, "kept");
  std::vector<ComparedTooth> teeth;
  for (std::size_t i = 0; i < children.size(); ++i)
    teeth.push_back({children[i], strata[i], exposed[i] == 1, kept[i] == 1});
  base::SeededRandom random(1);
  const auto found = compareClustered(teeth, random, 100).value();
  Values out = plainValues(found.teeth);
  out["clustered.variance"] = found.logVariance.value();
  out["clustered.low"] = found.interval->low;
  out["clustered.high"] = found.interval->high;
  out["clustered.p"] = found.p.value();
  return out;
}

Values compareHolm(const base::CsvTable& table) {
  const auto adjusted = holmAdjusted(numbers(table, "p")).value();
  Values out;
  for (std::size_t i = 0; i < adjusted.size(); ++i)
    out["p" + std::to_string(i + 1)] = adjusted[i];
  return out;
}

} // namespace gk::reference
