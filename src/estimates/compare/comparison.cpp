#include "estimates/compare/comparison.h"

#include "estimates/numbers/checks.h"
#include "estimates/numbers/chi_squared.h"
#include "estimates/numbers/distributions.h"
#include "estimates/numbers/holm.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace gk::estimates {
namespace {

constexpr double fewestExpected = 5; // Mantel and Fleiss 1980

base::Result<base::Done> checkStratum(const Stratum& stratum, std::size_t place) {
  const std::string where = "Stratum " + std::to_string(place) + ": the count of ";
  const std::pair<const char*, double> counts[]{{"exposed kept", stratum.exposedKept},
                                                {"exposed lost", stratum.exposedLost},
                                                {"others kept", stratum.otherKept},
                                                {"others lost", stratum.otherLost}};
  for (const auto& [name, value] : counts)
    if (auto checked = checkWhole(where + name, value); !checked) return checked;
  return base::Done{};
}

// Names of the 2 x 2 table as the sources have them: a kept and b lost on the exposed side.
struct Sums {
  double r = 0; // ad / n
  double s = 0; // bc / n
  double pr = 0;
  double psqr = 0;
  double qs = 0;
  double observed = 0;
  double expected = 0;
  double variance = 0;
  double least = 0;
  double most = 0;

  void add(const Stratum& stratum) {
    const auto [a, b, c, d] = stratum;
    const double n = a + b + c + d;
    const double p = (a + d) / n;
    const double q = (b + c) / n;
    r += a * d / n;
    s += b * c / n;
    pr += p * a * d / n;
    psqr += p * b * c / n + q * a * d / n;
    qs += q * b * c / n;
    observed += a;
    expected += (a + b) * (a + c) / n;
    variance += (a + b) * (c + d) * (a + c) * (b + d) / (n * n * (n - 1));
    least += std::max(0.0, (a + c) - (c + d));
    most += std::min(a + c, a + b);
  }
};

bool isInformative(const Stratum& stratum) {
  const auto [a, b, c, d] = stratum;
  return a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0;
}

void fillTest(Comparison& out, const Sums& sums) {
  const double distance = std::fabs(sums.observed - sums.expected);
  const double corrected = distance - (distance >= 0.5 ? 0.5 : 0);
  out.chiSquared = corrected * corrected / sums.variance;
  out.p = chiSquaredTail(*out.chiSquared, 1);
  if (sums.expected - sums.least < fewestExpected || sums.most - sums.expected < fewestExpected)
    out.notes.push_back(ComparisonNote::smallNumbers);
}

void fillRatio(Comparison& out, const Sums& sums, double level) {
  if (sums.s == 0) {
    out.notes.push_back(ComparisonNote::oddsRatioUnbounded);
    return;
  }
  out.oddsRatio = sums.r / sums.s;
  if (sums.r == 0) {
    out.notes.push_back(ComparisonNote::oddsRatioZero);
    return;
  }
  out.logVariance = sums.pr / (2 * sums.r * sums.r) + sums.psqr / (2 * sums.r * sums.s) +
                    sums.qs / (2 * sums.s * sums.s);
  const double reach = normalQuantile((1 + level) / 2) * std::sqrt(*out.logVariance);
  out.interval = Interval{*out.oddsRatio * std::exp(-reach), *out.oddsRatio * std::exp(reach)};
}

} // namespace

bool Comparison::has(ComparisonNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<Comparison> compare(std::span<const Stratum> strata, double level) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  Comparison out{};
  Sums sums;
  for (std::size_t i = 0; i < strata.size(); ++i) {
    if (auto checked = checkStratum(strata[i], i + 1); !checked) return checked.error();
    const auto& [a, b, c, d] = strata[i];
    const double n = a + b + c + d;
    if (n == 0) continue;
    ++out.strata;
    out.teeth += n;
    if (!isInformative(strata[i])) continue;
    ++out.informativeStrata;
    sums.add(strata[i]);
  }
  if (out.strata == 0)
    return refused("No tooth was examined among " + std::to_string(strata.size()) +
                   " strata; a comparison needs teeth on both sides.");
  if (out.strata < strata.size()) out.notes.push_back(ComparisonNote::emptyStrata);
  if (out.informativeStrata < out.strata) out.notes.push_back(ComparisonNote::uninformativeStrata);
  if (out.informativeStrata == 0) {
    out.notes.push_back(ComparisonNote::nothingToCompare);
    return out;
  }
  fillTest(out, sums);
  fillRatio(out, sums, level);
  return out;
}

base::Result<std::vector<Comparison>>
compareSeveral(std::span<const std::vector<Stratum>> comparisons, double level) {
  std::vector<Comparison> out;
  std::vector<double> p;
  for (std::size_t i = 0; i < comparisons.size(); ++i) {
    auto one = compare(comparisons[i], level);
    if (!one) return refused("Comparison " + std::to_string(i + 1) + ": " + one.error().detail);
    if (one->p) p.push_back(*one->p);
    out.push_back(std::move(one).value());
  }
  if (out.size() < 2) return out;
  const auto adjusted = holmAdjusted(p);
  if (!adjusted) return adjusted.error();
  std::size_t next = 0;
  for (auto& one : out) {
    one.notes.push_back(ComparisonNote::severalComparisons);
    if (one.p) one.adjustedP = (*adjusted)[next++];
  }
  return out;
}

} // namespace gk::estimates
