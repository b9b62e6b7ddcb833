#include "estimates/compare/comparison_clusters.h"

#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"
#include "estimates/numbers/percentile.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <string>

namespace gk::estimates {
namespace {

struct Cell {
  std::size_t stratum; // from 0
  bool exposed;
  bool kept;
  double teeth;
};

double& at(Stratum& stratum, const Cell& cell) {
  if (cell.exposed) return cell.kept ? stratum.exposedKept : stratum.exposedLost;
  return cell.kept ? stratum.otherKept : stratum.otherLost;
}

using Child = std::vector<Cell>;

struct Layout {
  std::vector<Child> children;
  std::size_t strata;
};

// Ordered by label, so that the order of rows does not change what a seed gives.
Layout laidOut(std::span<const ComparedTooth> teeth) {
  std::map<std::size_t, std::size_t> strata;
  for (const auto& tooth : teeth)
    strata.try_emplace(tooth.stratum, 0);
  std::size_t next = 0;
  for (auto& [label, index] : strata)
    index = next++;
  std::map<std::size_t, std::map<std::array<std::size_t, 3>, double>> counts;
  for (const auto& [child, stratum, exposed, kept] : teeth)
    counts[child][{strata.at(stratum), exposed ? 1U : 0U, kept ? 1U : 0U}] += 1;
  Layout out{{}, strata.size()};
  for (const auto& [label, cells] : counts) {
    Child child;
    for (const auto& [where, count] : cells)
      child.push_back({where[0], where[1] == 1, where[2] == 1, count});
    out.children.push_back(std::move(child));
  }
  return out;
}

void add(std::vector<Stratum>& tables, const Child& child) {
  for (const auto& cell : child)
    at(tables[cell.stratum], cell) += cell.teeth;
}

struct Ratio {
  double r = 0; // sum of ad / n
  double s = 0; // sum of bc / n
};

Ratio ratioOf(const std::vector<Stratum>& tables) {
  Ratio sum;
  for (const auto& [a, b, c, d] : tables) {
    const double n = a + b + c + d;
    if (n == 0) continue;
    sum.r += a * d / n;
    sum.s += b * c / n;
  }
  return sum;
}

// Slopes of log(R / S) in the four counts of one stratum.
Stratum slopes(const Stratum& stratum, const Ratio& sums) {
  const auto [a, b, c, d] = stratum;
  const double n = a + b + c + d;
  const double r = a * d / (n * n) / sums.r;
  const double s = b * c / (n * n) / sums.s;
  return {d / n / sums.r - r + s, -c / n / sums.s - r + s, -b / n / sums.s - r + s,
          a / n / sums.r - r + s};
}

// log(R / S) has degree 0 in the counts, so the children's terms already sum to 0.
double clusteredVariance(const Layout& layout, const std::vector<Stratum>& tables,
                         const Ratio& sums) {
  std::vector<Stratum> slopeOf;
  for (const auto& table : tables)
    slopeOf.push_back(slopes(table, sums));
  double squares = 0;
  for (const auto& child : layout.children) {
    double term = 0;
    for (const auto& cell : child)
      term += cell.teeth * at(slopeOf[cell.stratum], cell);
    squares += term * term;
  }
  const auto m = static_cast<double>(layout.children.size());
  return m / (m - 1) * squares;
}

// Two-sided, from the beta form of Student's distribution.
double studentTwoSided(double t, double degrees) {
  return regularisedBeta(degrees / 2, 0.5, degrees / (degrees + t * t));
}

void fillLinearised(ClusteredComparison& out, double variance, double level) {
  const double degrees = static_cast<double>(out.children) - 1;
  const double ratio = *out.teeth.oddsRatio;
  out.logVariance = variance;
  out.designEffect = variance / *out.teeth.logVariance;
  const double error = std::sqrt(variance);
  const double reach = studentQuantile((1 + level) / 2, degrees) * error;
  out.interval = Interval{ratio * std::exp(-reach), ratio * std::exp(reach)};
  if (error > 0) out.p = studentTwoSided(std::log(ratio) / error, degrees);
}

std::optional<Bootstrap> bootstrapOf(const Layout& layout, base::Random& random,
                                     std::size_t replicates, double level) {
  std::vector<double> ratios;
  std::vector<Stratum> tables(layout.strata);
  for (std::size_t i = 0; i < replicates; ++i) {
    std::fill(tables.begin(), tables.end(), Stratum{0, 0, 0, 0});
    for (std::size_t draw = 0; draw < layout.children.size(); ++draw)
      add(tables, layout.children[random.below(layout.children.size())]);
    const auto [r, s] = ratioOf(tables);
    if (r == 0 && s == 0) continue;
    ratios.push_back(s == 0 ? std::numeric_limits<double>::infinity() : r / s);
  }
  if (ratios.empty()) return std::nullopt;
  std::sort(ratios.begin(), ratios.end());
  const double low = percentile(ratios, (1 - level) / 2);
  const double high = percentile(ratios, (1 + level) / 2);
  if (std::isinf(low)) return std::nullopt;
  Bootstrap out{low, std::nullopt, ratios.size(), replicates - ratios.size()};
  if (!std::isinf(high)) out.high = high;
  return out;
}

} // namespace

bool ClusteredComparison::has(ClusteredNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<ClusteredComparison> compareClustered(std::span<const ComparedTooth> teeth,
                                                   base::Random& random, std::size_t replicates,
                                                   double level) {
  if (teeth.empty())
    return refused("No tooth was examined; a comparison needs teeth on both sides.");
  if (replicates < 100 || replicates > 100'000)
    return refused("The bootstrap has " + std::to_string(replicates) +
                   " replicates; give 100 to 100,000.");
  const Layout layout = laidOut(teeth);
  std::vector<Stratum> tables(layout.strata);
  for (const auto& child : layout.children)
    add(tables, child);
  auto plain = compare(tables, level);
  if (!plain) return plain.error();

  ClusteredComparison out{};
  out.teeth = std::move(plain).value();
  out.children = layout.children.size();
  if (out.children == 1) {
    out.notes.push_back(ClusteredNote::oneChild);
    return out;
  }
  if (out.children < fewestCompared) out.notes.push_back(ClusteredNote::fewChildren);
  if (!out.teeth.logVariance) return out; // replicates would all sit on the same edge
  fillLinearised(out, clusteredVariance(layout, tables, ratioOf(tables)), level);
  out.bootstrap = bootstrapOf(layout, random, replicates, level);
  const std::size_t with = out.bootstrap ? out.bootstrap->replicates : 0;
  if (replicates - with > replicates / 20) out.notes.push_back(ClusteredNote::manyWithoutRatio);
  return out;
}

} // namespace gk::estimates
