#include "estimates/attack_rate/attack_rate_profile.h"

#include "estimates/attack_rate/attack_rate_rows.h"
#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gk::estimates {
namespace {

struct Summit {
  double hazard; ///< infinite when all are affected
  double logLikelihood;
};

Summit summitOf(const KeptExposure& kept) {
  if (kept.affected == 0) return {0, 0};
  if (kept.affected == kept.molars) return {std::numeric_limits<double>::infinity(), 0};
  const double hazard = likeliestHazard(kept.rows);
  return {hazard, logLikelihoodAt(hazard, kept.rows)};
}

// The log-likelihood in eta = log h, where it is concave.
class Slope {
 public:
  explicit Slope(std::span<const Exposure> rows) {
    for (const auto& [years, examined, hit, child] : rows) {
      soundYears_ += (examined - hit) * years;
      if (hit > 0) affected_.push_back({years, hit});
    }
  }

  struct At {
    double value;
    double slope;
  };
  [[nodiscard]] At at(double eta) const {
    const double hazard = std::exp(eta);
    At out{-soundYears_ * hazard, -soundYears_ * hazard};
    for (const auto& [years, hit] : affected_) {
      const double x = hazard * years;
      const double grown = std::expm1(x);
      out.value += hit * std::log(annualFrom(x));
      out.slope += hit * x / grown;
    }
    return out;
  }

  // Where the value crosses `floor`, on the side of `direction` (1 or -1) of a `start` above it.
  // From below a concave curve Newton comes up to the crossing and never passes it.
  [[nodiscard]] double crossing(double start, double direction, double floor) const {
    double away = 0.1;
    while (at(start + direction * away).value >= floor)
      away *= 2;
    double eta = start + direction * away;
    for (int i = 0; i < 200; ++i) {
      const auto [value, slope] = at(eta);
      const double step = (floor - value) / slope;
      if (std::fabs(step) <= 1e-14 * std::max(1.0, std::fabs(eta)) || step * direction >= 0) break;
      eta += step;
    }
    return eta;
  }

 private:
  struct Affected {
    double years;
    double hit;
  };
  double soundYears_ = 0;
  std::vector<Affected> affected_;
};

Interval limits(const Summit& summit, const Slope& slope, double fall) {
  const double floor = summit.logLikelihood - fall;
  const bool isAll = std::isinf(summit.hazard);
  double start = summit.hazard > 0 && !isAll ? std::log(summit.hazard) : 0;
  // With none or all affected the summit lies at no finite eta: any start above the floor serves.
  while (slope.at(start).value < floor)
    start += isAll ? 1 : -1;
  return {summit.hazard > 0 ? annualFrom(std::exp(slope.crossing(start, -1, floor))) : 0,
          isAll ? 1 : annualFrom(std::exp(slope.crossing(start, 1, floor)))};
}

double designEffectOf(const Summit& summit, const KeptExposure& kept) {
  const bool isInside = summit.hazard > 0 && std::isfinite(summit.hazard);
  if (!isInside || kept.children == 1)
    return std::max(1.0, kept.molars / static_cast<double>(kept.children));
  const auto [robust, model] = cloglogVariances(summit.hazard, kept.rows);
  return std::max(1.0, robust / model);
}

} // namespace

base::Result<AttackRateProfile> attackRateProfile(std::span<const Exposure> rows, double level) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  const auto kept = keepExposure(rows);
  if (!kept) return kept.error();
  if (kept->rows.empty()) return nothingKept(*kept, rows.size());
  const Summit summit = summitOf(*kept);
  const double z = normalQuantile((1 + level) / 2);
  const double effect = designEffectOf(summit, *kept);
  const Slope slope(kept->rows);
  return AttackRateProfile{
      .annual = annualFrom(summit.hazard),
      .logLikelihood = summit.logLikelihood,
      .independent = limits(summit, slope, z * z / 2),
      .clustered = limits(summit, slope, effect * z * z / 2),
      .designEffect = effect,
  };
}

} // namespace gk::estimates
