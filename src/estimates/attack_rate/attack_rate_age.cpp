#include "estimates/attack_rate/attack_rate_age.h"

#include "estimates/attack_rate/attack_rate_rows.h"
#include "estimates/numbers/checks.h"
#include "estimates/numbers/chi_squared.h"
#include "estimates/shares/retention.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace gk::estimates {
namespace {

constexpr double usualSignificance = 0.05;

using Numbers = std::vector<double>;

base::Result<base::Done> checkEdges(std::span<const double> edges) {
  double before = shortestExposure;
  for (const double edge : edges) {
    if (!std::isfinite(edge) || edge <= before)
      return refused("The edge between two age bands is " + shown(edge) + " years after " +
                     shown(before) + "; give edges that rise from above 0.25.");
    before = edge;
  }
  return base::Done{};
}

std::vector<std::vector<Exposure>> banded(std::span<const Exposure> rows,
                                          std::span<const double> edges) {
  std::vector<std::vector<Exposure>> out(edges.size() + 1);
  for (const auto& row : rows) {
    const auto edge = std::upper_bound(edges.begin(), edges.end(), row.years);
    out[static_cast<std::size_t>(edge - edges.begin())].push_back(row);
  }
  return out;
}

double bestLogLikelihood(std::span<const Exposure> rows, const AttackRateEstimate& rate) {
  if (!rate.cloglog) return 0; // none or all affected: certain under the band's own rate
  return logLikelihoodAt(std::exp(*rate.cloglog), rows);
}

// Solves a x = b by elimination with pivoting; empty when singular.
Numbers solved(std::vector<Numbers> a, Numbers b) {
  const std::size_t n = b.size();
  double largest = 0;
  for (std::size_t i = 0; i < n; ++i)
    largest = std::max(largest, std::fabs(a[i][i]));
  for (std::size_t i = 0; i < n; ++i) {
    std::size_t pivot = i;
    for (std::size_t r = i + 1; r < n; ++r)
      if (std::fabs(a[r][i]) > std::fabs(a[pivot][i])) pivot = r;
    if (!(std::fabs(a[pivot][i]) > 1e-12 * largest)) return {};
    std::swap(a[i], a[pivot]);
    std::swap(b[i], b[pivot]);
    for (std::size_t r = i + 1; r < n; ++r) {
      const double factor = a[r][i] / a[i][i];
      for (std::size_t c = i; c < n; ++c)
        a[r][c] -= factor * a[i][c];
      b[r] -= factor * b[i];
    }
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t c = i + 1; c < n; ++c)
      b[i] -= a[i][c] * b[c];
    b[i] /= a[i][i];
  }
  return b;
}

// One child's score in each band at the common rate.
using ChildScores = std::vector<Numbers>;

struct Scores {
  ChildScores children;
  Numbers information; ///< of each band
};

Scores scoresAt(double hazard, std::span<const Exposure> rows, std::span<const double> edges,
                const std::vector<std::size_t>& places, std::size_t bands) {
  Scores out{{}, Numbers(bands, 0)};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i == 0 || rows[i].child != rows[i - 1].child) out.children.emplace_back(bands, 0);
    const auto edge = std::upper_bound(edges.begin(), edges.end(), rows[i].years);
    const std::size_t band = places[static_cast<std::size_t>(edge - edges.begin())];
    const auto [score, information] = cloglogTerm(hazard, rows[i]);
    out.children.back()[band] += score;
    out.information[band] += information;
  }
  return out;
}

// The common rate is estimated, so a child's total score is taken off each band in proportion to
// the band's information. The last band follows from the others and is left out.
std::optional<double> generalisedScore(const Scores& scores) {
  const std::size_t free = scores.information.size() - 1;
  double all = 0;
  for (const double information : scores.information)
    all += information;
  Numbers sum(free, 0);
  std::vector<Numbers> variance(free, Numbers(free, 0));
  for (const auto& child : scores.children) {
    double total = 0;
    for (const double score : child)
      total += score;
    Numbers own(free);
    for (std::size_t b = 0; b < free; ++b) {
      own[b] = child[b] - scores.information[b] / all * total;
      sum[b] += own[b];
    }
    for (std::size_t b = 0; b < free; ++b)
      for (std::size_t c = 0; c < free; ++c)
        variance[b][c] += own[b] * own[c];
  }
  const auto m = static_cast<double>(scores.children.size());
  for (auto& row : variance)
    for (auto& cell : row)
      cell *= m / (m - 1);
  const Numbers direction = solved(variance, sum);
  if (direction.empty()) return std::nullopt;
  double out = 0;
  for (std::size_t b = 0; b < free; ++b)
    out += sum[b] * direction[b];
  return std::max(0.0, out);
}

RiskWithAge verdictOf(const RiskByAge& found, std::size_t children) {
  if (!found.clusteredRatioP || children < fewestClusters) return RiskWithAge::cannotTell;
  if (*found.clusteredRatioP >= usualSignificance) return RiskWithAge::looksConstant;
  const auto inOrder = [&found](auto isBefore) {
    return std::adjacent_find(found.bands.begin(), found.bands.end(),
                              [&](const RiskBand& a, const RiskBand& b) {
                                return !isBefore(a.rate.annual, b.rate.annual);
                              }) == found.bands.end();
  };
  if (inOrder(std::greater<>{})) return RiskWithAge::falls;
  return inOrder(std::less<>{}) ? RiskWithAge::rises : RiskWithAge::differs;
}

} // namespace

base::Result<RiskByAge> riskByAge(std::span<const Exposure> rows, std::span<const double> edges,
                                  double level) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  if (auto checked = checkEdges(edges); !checked) return checked.error();
  const auto kept = keepExposure(rows);
  if (!kept) return kept.error();
  if (kept->rows.empty()) return nothingKept(*kept, rows.size());

  RiskByAge out{};
  out.verdict = RiskWithAge::cannotTell;
  std::vector<std::size_t> places;
  double gain = 0;
  const auto bands = banded(kept->rows, edges);
  for (std::size_t i = 0; i < bands.size(); ++i) {
    places.push_back(out.bands.size());
    if (bands[i].empty()) continue;
    auto rate = attackRate(bands[i], level);
    if (!rate) return rate.error();
    gain += bestLogLikelihood(bands[i], *rate);
    out.bands.push_back({.from = i == 0 ? shortestExposure : edges[i - 1],
                         .until = i < edges.size() ? std::optional(edges[i]) : std::nullopt,
                         .rate = std::move(rate).value()});
  }
  const bool isMixed = kept->affected > 0 && kept->affected < kept->molars;
  if (out.bands.size() < 2 || !isMixed) return out;

  const double hazard = likeliestHazard(kept->rows);
  out.degrees = out.bands.size() - 1;
  const auto degrees = static_cast<double>(out.degrees);
  out.likelihoodRatio = std::max(0.0, 2 * (gain - logLikelihoodAt(hazard, kept->rows)));
  out.likelihoodRatioP = chiSquaredTail(*out.likelihoodRatio, degrees);
  if (kept->children > 1) {
    const auto [robust, model] = cloglogVariances(hazard, kept->rows);
    out.clusteredRatio = *out.likelihoodRatio / std::max(1.0, robust / model);
    out.clusteredRatioP = chiSquaredTail(*out.clusteredRatio, degrees);
    out.robustScore =
        generalisedScore(scoresAt(hazard, kept->rows, edges, places, out.bands.size()));
  }
  if (out.robustScore) out.robustScoreP = chiSquaredTail(*out.robustScore, degrees);
  out.verdict = verdictOf(out, kept->children);
  return out;
}

} // namespace gk::estimates
