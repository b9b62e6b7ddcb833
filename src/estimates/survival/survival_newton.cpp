#include "estimates/survival/survival_newton.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace gk::estimates {
namespace {

using Index = std::vector<std::size_t>;

// Square and symmetric; only j <= k is filled.
class Upper {
 public:
  explicit Upper(std::size_t size) : size_(size), cells_(size * size, 0) {}
  double& at(std::size_t j, std::size_t k) { return cells_[j * size_ + k]; }
  [[nodiscard]] double at(std::size_t j, std::size_t k) const { return cells_[j * size_ + k]; }
  [[nodiscard]] double symmetric(std::size_t j, std::size_t k) const {
    return j <= k ? at(j, k) : at(k, j);
  }
  [[nodiscard]] std::size_t size() const { return size_; }

 private:
  std::size_t size_;
  std::vector<double> cells_;
};

// The intervals with a mass, and the steepest one of each gap between them when it would rise.
Index support(std::span<const double> masses, std::span<const double> slopes, double weight) {
  Index chosen;
  std::size_t steepest = masses.size();
  const auto closeGap = [&] {
    if (steepest < masses.size() && slopes[steepest] > weight) chosen.push_back(steepest);
    steepest = masses.size();
  };
  for (std::size_t j = 0; j < masses.size(); ++j) {
    if (masses[j] > 0) {
      closeGap();
      chosen.push_back(j);
    } else if (steepest == masses.size() || slopes[j] > slopes[steepest]) {
      steepest = j;
    }
  }
  closeGap();
  return chosen;
}

// Minus the second derivatives: for j <= k the sum of w / P^2 over coverages that hold both, by
// cumulating first over starts and then over ends.
Upper curvature(std::span<const Coverage> coverages, std::span<const double> chances,
                const Index& chosen) {
  Upper out(chosen.size());
  for (std::size_t i = 0; i < coverages.size(); ++i) {
    const auto from = std::lower_bound(chosen.begin(), chosen.end(), coverages[i].first);
    const auto past = std::upper_bound(from, chosen.end(), coverages[i].last);
    if (from == past) continue;
    out.at(static_cast<std::size_t>(from - chosen.begin()),
           static_cast<std::size_t>(past - chosen.begin()) - 1) +=
        coverages[i].weight / (chances[i] * chances[i]);
  }
  const std::size_t n = out.size();
  for (std::size_t j = 0; j < n; ++j) {
    if (j > 0)
      for (std::size_t k = 0; k < n; ++k)
        out.at(j, k) += out.at(j - 1, k);
  }
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t k = n - 1; k-- > 0;)
      out.at(j, k) += out.at(j, k + 1);
  return out;
}

// Solves the system restricted to `free` by Cholesky; empty when it is not positive definite.
std::vector<double> solveOn(const Upper& matrix, const std::vector<double>& right,
                            const Index& free) {
  const std::size_t n = free.size();
  std::vector<double> lower(n * n);
  std::vector<double> out(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double* const rowI = &lower[i * n];
    for (std::size_t j = 0; j <= i; ++j) {
      const double* const rowJ = &lower[j * n];
      const double sum =
          matrix.symmetric(free[j], free[i]) - std::inner_product(rowI, rowI + j, rowJ, 0.0);
      if (i != j) {
        lower[i * n + j] = sum / lower[j * n + j];
        continue;
      }
      if (!(sum > 0)) return {};
      lower[i * n + i] = std::sqrt(sum);
    }
    out[i] =
        (right[free[i]] - std::inner_product(rowI, rowI + i, out.begin(), 0.0)) / lower[i * n + i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k)
      out[i] -= lower[k * n + i] * out[k];
    out[i] /= lower[i * n + i];
  }
  return out;
}

// min q'Hq/2 - c'q over q >= 0 by active sets (Lawson and Hanson 1974, ch. 23), from a feasible q.
bool minimize(const Upper& matrix, const std::vector<double>& c, std::vector<double>& q) {
  std::vector<bool> isFree(q.size());
  for (std::size_t j = 0; j < q.size(); ++j)
    isFree[j] = q[j] > 0;
  const std::size_t most = 3 * q.size() + 10;
  for (std::size_t round = 0; round < most; ++round) {
    Index free;
    for (std::size_t j = 0; j < q.size(); ++j)
      if (isFree[j]) free.push_back(j);
    const auto wanted = solveOn(matrix, c, free);
    if (wanted.size() != free.size()) return false;
    double reach = 1;
    for (std::size_t f = 0; f < free.size(); ++f)
      if (wanted[f] <= 0) reach = std::min(reach, q[free[f]] / (q[free[f]] - wanted[f]));
    for (std::size_t f = 0; f < free.size(); ++f) {
      double& value = q[free[f]];
      value = reach == 1 ? wanted[f] : value + reach * (wanted[f] - value);
      if (wanted[f] > 0 || value > 1e-15) continue;
      value = 0;
      isFree[free[f]] = false;
    }
    if (reach < 1) continue;
    double steepest = 1e-13 * *std::max_element(c.begin(), c.end());
    std::size_t entering = q.size();
    for (std::size_t j = 0; j < q.size(); ++j) {
      if (isFree[j]) continue;
      double slope = c[j];
      for (const std::size_t k : free)
        slope -= matrix.symmetric(j, k) * q[k];
      if (slope <= steepest) continue;
      steepest = slope;
      entering = j;
    }
    if (entering == q.size()) return true;
    isFree[entering] = true;
  }
  return true; // feasible, and the caller's line search guards the rest
}

} // namespace

std::vector<double> newtonProposal(std::span<const Coverage> coverages,
                                   std::span<const double> chances, std::span<const double> masses,
                                   std::span<const double> slopes, std::size_t most) {
  double weight = 0;
  for (const auto& coverage : coverages)
    weight += coverage.weight;
  const Index chosen = support(masses, slopes, weight);
  if (chosen.size() > most) return {};
  const Upper matrix = curvature(coverages, chances, chosen);
  // With the sum held by the multiplier `weight`: gradient d - weight, and H p = d.
  std::vector<double> linear(chosen.size());
  std::vector<double> q(chosen.size());
  for (std::size_t j = 0; j < chosen.size(); ++j) {
    linear[j] = 2 * slopes[chosen[j]] - weight;
    q[j] = masses[chosen[j]];
  }
  if (!minimize(matrix, linear, q)) return {};
  const double sum = std::accumulate(q.begin(), q.end(), 0.0);
  if (!(sum > 0)) return {};
  std::vector<double> out(masses.size(), 0);
  for (std::size_t j = 0; j < chosen.size(); ++j)
    out[chosen[j]] = q[j] / sum;
  return out;
}

} // namespace gk::estimates
