#include "estimates/attack_rate_profile.h"

#include "estimates/attack_rate_rows.h"
#include "estimates/checks.h"
#include "estimates/distributions.h"

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

// The hazard between one where the likelihood has fallen too far and one where it has not.
double crossing(std::span<const Exposure> rows, double fallen, double kept, double floor) {
  for (int i = 0; i < 200; ++i) {
    const double middle = fallen + (kept - fallen) / 2;
    (logLikelihoodAt(middle, rows) < floor ? fallen : kept) = middle;
  }
  return kept;
}

Interval limits(const Summit& summit, const KeptExposure& kept, double fall) {
  const double floor = summit.logLikelihood - fall;
  const bool isAll = std::isinf(summit.hazard);
  Interval out{0, 1};
  if (summit.hazard > 0) {
    double inside = isAll ? 1 : summit.hazard;
    while (logLikelihoodAt(inside, kept.rows) < floor)
      inside *= 2;
    out.low = annualFrom(crossing(kept.rows, 0, inside, floor));
  }
  if (!isAll) {
    double outside = summit.hazard > 0 ? 2 * summit.hazard : 1;
    while (logLikelihoodAt(outside, kept.rows) >= floor)
      outside *= 2;
    out.high = annualFrom(crossing(kept.rows, outside, summit.hazard, floor));
  }
  return out;
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
  return AttackRateProfile{
      .annual = annualFrom(summit.hazard),
      .logLikelihood = summit.logLikelihood,
      .independent = limits(summit, *kept, z * z / 2),
      .clustered = limits(summit, *kept, effect * z * z / 2),
      .designEffect = effect,
  };
}

} // namespace gk::estimates
