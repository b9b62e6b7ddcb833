#include "estimates/survival/survival_fit.h"

#include "base/contract.h"
#include "estimates/survival/survival_newton.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace gk::estimates {
namespace {

constexpr double gapWanted = 1e-11;
constexpr std::size_t mostIterations = 5000;
constexpr std::size_t mostForNewton =
    400;                              ///< intervals; a Cholesky of this size takes milliseconds
constexpr double gapForNewton = 0.03; ///< before that the cheap steps find the intervals faster
constexpr std::size_t cheapRounds = 10;
constexpr int roundsWithoutGain = 5;
constexpr double rounding = 1e-13; ///< of a log-likelihood, relative

// Coverages of the innermost intervals, and the climb to the maximum of the likelihood.
class Climb {
 public:
  Climb(std::vector<Coverage> coverages, std::size_t intervals)
      : coverages_(std::move(coverages)), slopes_(intervals) {
    join();
    for (const auto& coverage : coverages_)
      weight_ += coverage.weight;
    const std::vector<double> even(intervals, 1 / static_cast<double>(intervals));
    move(even);
  }

  void run() {
    int idle = 0;
    double least = gap_;
    for (iterations_ = 0; iterations_ < mostIterations && gap_ > gapWanted; ++iterations_) {
      const double before = logLikelihood_;
      selfConsistencyStep();
      convexMinorantStep();
      if (gap_ < gapForNewton || iterations_ >= cheapRounds) newtonStep();
      const bool gained = logLikelihood_ - before > rounding * std::fabs(before) || gap_ < least;
      least = std::min(least, gap_);
      idle = gained ? 0 : idle + 1;
      if (idle == roundsWithoutGain) return;
    }
  }

  [[nodiscard]] const std::vector<double>& masses() const { return masses_; }
  [[nodiscard]] double logLikelihood() const { return logLikelihood_; }
  [[nodiscard]] double gap() const { return gap_; }
  [[nodiscard]] std::size_t iterations() const { return iterations_; }

 private:
  // Coverages of the same intervals become one.
  void join() {
    std::sort(coverages_.begin(), coverages_.end(), [](const Coverage& a, const Coverage& b) {
      return a.first != b.first ? a.first < b.first : a.last < b.last;
    });
    std::size_t kept = 0;
    for (std::size_t i = 1; i < coverages_.size(); ++i) {
      auto& last = coverages_[kept];
      const auto& next = coverages_[i];
      if (last.first == next.first && last.last == next.last)
        last.weight += next.weight;
      else
        coverages_[++kept] = next;
    }
    coverages_.resize(kept + 1);
  }

  [[nodiscard]] std::vector<double> summed(std::span<const double> masses) const {
    std::vector<double> sums(masses.size() + 1, 0);
    std::partial_sum(masses.begin(), masses.end(), sums.begin() + 1);
    return sums;
  }

  [[nodiscard]] double logLikelihoodAt(const std::vector<double>& sums) const {
    double out = 0;
    for (const auto& [first, last, weight] : coverages_) {
      const double chance = sums[last + 1] - sums[first];
      if (!(chance > 0)) return -std::numeric_limits<double>::infinity();
      out += weight * std::log(chance);
    }
    return out;
  }

  void move(std::vector<double> masses) {
    masses_ = std::move(masses);
    sums_ = summed(masses_);
    logLikelihood_ = logLikelihoodAt(sums_);
    chances_.resize(coverages_.size());
    std::vector<double> steps(masses_.size() + 1, 0);
    for (std::size_t i = 0; i < coverages_.size(); ++i) {
      const auto& [first, last, weight] = coverages_[i];
      chances_[i] = sums_[last + 1] - sums_[first];
      steps[first] += weight / chances_[i];
      steps[last + 1] -= weight / chances_[i];
    }
    double slope = 0;
    gap_ = 0;
    for (std::size_t j = 0; j < masses_.size(); ++j) {
      slope += steps[j];
      slopes_[j] = slope;
      gap_ = std::max(gap_, slope / weight_ - 1);
    }
  }

  // Moves towards `aim` as far as the likelihood does not fall (beyond rounding), halving; stays
  // where it is when nothing on the way is better.
  void moveTowards(const std::vector<double>& aim) {
    const double slack = rounding * std::fabs(logLikelihood_);
    double part = 1;
    for (int i = 0; i < 12; ++i, part /= 2) {
      std::vector<double> trial(aim);
      if (part < 1)
        for (std::size_t j = 0; j < trial.size(); ++j)
          trial[j] = masses_[j] + part * (aim[j] - masses_[j]);
      if (logLikelihoodAt(summed(trial)) < logLikelihood_ - slack) continue;
      move(std::move(trial));
      return;
    }
  }

  // Turnbull 1976: each spell shares its weight among its intervals as the masses stand.
  void selfConsistencyStep() {
    std::vector<double> next(masses_);
    for (std::size_t j = 0; j < next.size(); ++j)
      next[j] *= slopes_[j] / weight_;
    const double sum = std::accumulate(next.begin(), next.end(), 0.0);
    for (auto& mass : next)
      mass /= sum;
    moveTowards(next);
  }

  // Iterative convex minorant (Groeneboom and Wellner 1992; Wellner and Zhan 1997, J Am Stat Assoc
  // 92:945-59): a Newton step in the cumulated masses with the diagonal alone, made to rise by
  // pooling adjacent violators.
  void convexMinorantStep() {
    const std::size_t inner = masses_.size() - 1;
    if (inner == 0) return;
    std::vector<double> slope(masses_.size() + 1, 0);
    std::vector<double> curve(masses_.size() + 1, 0);
    for (std::size_t i = 0; i < coverages_.size(); ++i) {
      const auto& [first, last, weight] = coverages_[i];
      const double pull = weight / chances_[i];
      slope[last + 1] += pull;
      slope[first] -= pull;
      curve[last + 1] += pull / chances_[i];
      curve[first] += pull / chances_[i];
    }
    struct Block {
      double mean;
      double weight;
      std::size_t length;
    };
    std::vector<Block> blocks;
    for (std::size_t k = 1; k <= inner; ++k) {
      Block block{sums_[k] + slope[k] / curve[k], curve[k], 1};
      while (!blocks.empty() && blocks.back().mean >= block.mean) {
        const Block& before = blocks.back();
        const double together = before.weight + block.weight;
        block = {(before.weight * before.mean + block.weight * block.mean) / together, together,
                 before.length + block.length};
        blocks.pop_back();
      }
      blocks.push_back(block);
    }
    std::vector<double> aim(masses_.size(), 0);
    double reached = 0;
    std::size_t k = 0;
    for (const auto& block : blocks) {
      const double height = std::clamp(block.mean, 0.0, 1.0);
      aim[k] = height - reached;
      reached = height;
      k += block.length;
    }
    aim[inner] = 1 - reached;
    moveTowards(aim);
  }

  void newtonStep() {
    const auto aim = newtonProposal(coverages_, chances_, masses_, slopes_, mostForNewton);
    if (!aim.empty()) moveTowards(aim);
  }

  std::vector<Coverage> coverages_;
  double weight_ = 0;
  std::vector<double> masses_;
  std::vector<double> sums_;
  std::vector<double> chances_;
  std::vector<double> slopes_;
  double logLikelihood_ = 0;
  double gap_ = 0;
  std::size_t iterations_ = 0;
};

} // namespace

StretchSet::StretchSet(std::vector<Stretch> stretches) : stretches_(std::move(stretches)) {
  ends_.reserve(2 * stretches_.size());
  for (std::size_t i = 0; i < stretches_.size(); ++i) {
    const auto& [left, right] = stretches_[i];
    base::require(left >= 0 && std::isfinite(left) && right >= left, "a stretch out of order");
    ends_.push_back({left, left == right ? 0 : 2, i});
    ends_.push_back({right, 1, i});
  }
  std::sort(ends_.begin(), ends_.end(), [](const End& a, const End& b) {
    if (a.time != b.time) return a.time < b.time;
    return a.kind != b.kind ? a.kind < b.kind : a.stretch < b.stretch;
  });
}

FittedMasses StretchSet::fit(std::span<const double> weights) const {
  base::require(weights.size() == stretches_.size(), "one weight for each stretch");
  // A left end followed at once by a right end bounds an innermost interval (Turnbull 1976).
  std::vector<Stretch> innermost;
  std::vector<Coverage> coverages(stretches_.size());
  const End* before = nullptr;
  for (const auto& end : ends_) {
    if (!(weights[end.stretch] > 0)) continue;
    if (end.kind != 1) {
      coverages[end.stretch].first = innermost.size();
    } else {
      if (before != nullptr && before->kind != 1) innermost.push_back({before->time, end.time});
      coverages[end.stretch].last = innermost.size() - 1;
      coverages[end.stretch].weight = weights[end.stretch];
    }
    before = &end;
  }
  base::require(!innermost.empty(), "a fit needs a weight above 0");
  std::erase_if(coverages, [](const Coverage& coverage) { return !(coverage.weight > 0); });

  Climb climb(std::move(coverages), innermost.size());
  climb.run();
  FittedMasses out{{}, climb.logLikelihood(), climb.iterations(), climb.gap()};
  for (std::size_t j = 0; j < innermost.size(); ++j)
    if (climb.masses()[j] > 0) out.masses.push_back({innermost[j], climb.masses()[j]});
  return out;
}

} // namespace gk::estimates
