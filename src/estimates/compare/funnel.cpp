#include "estimates/compare/funnel.h"

#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"
#include "estimates/shares/retention.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

constexpr double largest = 1e6; // teeth; beyond it a funnel is a line

// P(X <= k), which for a whole n is the binomial sum (DLMF 8.17.5).
double cumulative(double k, double n, double theta) {
  if (k < 0) return 0;
  if (k >= n) return 1;
  return regularisedBeta(n - k, k + 1, 1 - theta);
}

base::Result<base::Done> checkLimit(double theta, double n) {
  if (auto checked = checkShare("The share in the middle of the funnel", theta); !checked)
    return checked;
  if (n > 0 && n <= largest) return base::Done{};
  return refused("The number of teeth is " + shown(n) + "; give one above 0 and up to 1,000,000.");
}

double expectedOutside(const FunnelTails& tails, std::size_t units) {
  return 2 * tails.inner * static_cast<double>(units);
}

} // namespace

base::Result<double> binomialLimit(double theta, double n, double tail) {
  if (auto checked = checkLimit(theta, n); !checked) return checked.error();
  if (!(tail >= 1e-5 && tail <= 1 - 1e-5))
    return refused("The tail is " + shown(tail) + "; give one from 0.00001 to 0.99999.");
  double below = -1; // F <= tail here
  double k = std::ceil(n);
  while (k - below > 1) {
    const double middle = std::floor((below + k) / 2);
    (cumulative(middle, n, theta) > tail ? k : below) = middle;
  }
  const double reached = cumulative(k, n, theta);
  const double part = (reached - tail) / (reached - cumulative(k - 1, n, theta));
  return std::clamp((k - part) / n, 0.0, 1.0);
}

base::Result<FunnelLimits> funnelLimits(double theta, double n, FunnelTails tails) {
  if (!(tails.inner < 0.5 && tails.outer <= tails.inner))
    return refused("The funnel's tails are " + shown(tails.inner) + " and " + shown(tails.outer) +
                   "; give an inner one below 0.5 and an outer one no larger.");
  const auto farLow = binomialLimit(theta, n, tails.outer);
  const auto low = binomialLimit(theta, n, tails.inner);
  // What is kept is above where what is lost is below: the limit at 1 - tail itself leaves out the
  // count on which it lies, which is all of four teeth however likely that is.
  const auto fewLost = binomialLimit(1 - theta, n, tails.inner);
  const auto fewestLost = binomialLimit(1 - theta, n, tails.outer);
  for (const auto* limit : {&farLow, &low, &fewLost, &fewestLost})
    if (!*limit) return limit->error();
  return FunnelLimits{*farLow, *low, 1 - *fewLost, 1 - *fewestLost};
}

FunnelPlace placeIn(const FunnelLimits& limits, double share) {
  if (share < limits.farLow) return FunnelPlace::farBelow;
  if (share < limits.low) return FunnelPlace::below;
  if (share > limits.farHigh) return FunnelPlace::farAbove;
  if (share > limits.high) return FunnelPlace::above;
  return FunnelPlace::within;
}

bool Departures::has(FunnelNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<Departures> departures(std::span<const Unit> units, double designEffect,
                                    FunnelTails tails) {
  if (!(designEffect >= 1 && designEffect <= 1000))
    return refused("The design effect is " + shown(designEffect) +
                   "; give one from 1 to 1,000, such as that of the program's retention.");
  double examined = 0;
  double kept = 0;
  std::size_t withTeeth = 0;
  for (std::size_t i = 0; i < units.size(); ++i) {
    const std::string where = "Unit " + std::to_string(i + 1);
    if (auto checked = checkPart(where, units[i].kept, units[i].examined); !checked)
      return checked.error();
    examined += units[i].examined;
    kept += units[i].kept;
    if (units[i].examined > 0) ++withTeeth;
  }
  if (withTeeth == 0)
    return refused("No tooth was examined among " + std::to_string(units.size()) +
                   " units; a funnel needs at least one.");
  Departures out{kept / examined, {}, expectedOutside(tails, withTeeth), {}};
  const bool allOrNone = kept == 0 || kept == examined;
  if (withTeeth < fewestClusters) out.notes.push_back(FunnelNote::fewUnits);
  if (withTeeth < units.size()) out.notes.push_back(FunnelNote::emptyUnits);
  if (allOrNone) out.notes.push_back(FunnelNote::allOrNone);
  for (const auto& unit : units) {
    Departure one{std::nullopt, unit.examined / designEffect, std::nullopt, FunnelPlace::within};
    if (unit.examined > 0) {
      const auto limits = funnelLimits(out.theta, one.effectiveN, tails);
      if (!limits) return limits.error();
      one.share = unit.kept / unit.examined;
      one.limits = *limits;
      if (!allOrNone) one.place = placeIn(*limits, *one.share);
    }
    out.units.push_back(one);
  }
  return out;
}

} // namespace gk::estimates
