#include "estimates/attack_rate/attack_rate_program.h"

#include "estimates/numbers/distributions.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace gk::estimates {
namespace {

/// The design effect of the planned likeness, k the molars in the school of a molar.
double plannedEffect(std::span<const Exposure> bySchool) {
  std::map<std::size_t, double> molars;
  for (const auto& row : bySchool)
    if (row.years >= shortestExposure) molars[row.child] += row.examined;
  double all = 0;
  double squares = 0;
  for (const auto& [school, count] : molars) {
    all += count;
    squares += count * count;
  }
  return all > 0 ? 1 + (squares / all - 1) * plannedLikeness : 1;
}

void setLimits(AttackRateEstimate& rate, double variance, double degrees, double level) {
  const double tail = (1 + level) / 2;
  const double reach = studentQuantile(tail, degrees) * std::sqrt(variance);
  const double hazard = std::exp(*rate.cloglog);
  rate.low = -std::expm1(-hazard * std::exp(-reach));
  rate.high = -std::expm1(-hazard * std::exp(reach));
  rate.standardError = reach / normalQuantile(tail);
}

} // namespace

base::Result<ProgramRate> programRate(std::span<const Exposure> byChild,
                                      std::span<const Exposure> bySchool, double level) {
  auto children = attackRate(byChild, level);
  if (!children) return children.error();
  const auto schools = attackRate(bySchool, level);
  if (!schools) return schools.error();
  ProgramRate out{*std::move(children)};
  auto& rate = out.rate;
  if (!rate.standardError || !schools->robustVariance || rate.children < 2) return out;
  out.units = programUnits(schools->children);
  const double seen =
      std::max({*rate.robustVariance, *schools->robustVariance, *rate.modelVariance});
  if (out.units == ProgramUnits::schools) {
    setLimits(rate, seen, static_cast<double>(schools->children) - 1, level);
    rate.robustVariance = schools->robustVariance;
    return out;
  }
  const double planned = *rate.modelVariance * plannedEffect(bySchool);
  out.isPlanned = planned > seen;
  setLimits(rate, std::max(seen, planned), static_cast<double>(rate.children) - 1, level);
  return out;
}

} // namespace gk::estimates
