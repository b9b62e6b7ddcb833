#include "estimates/attack_rate/attack_rate.h"

#include "estimates/attack_rate/attack_rate_rows.h"
#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"

#include <algorithm>
#include <cmath>

namespace gk::estimates {
namespace {

void fillInterior(AttackRateEstimate& out, std::span<const Exposure> rows, double level) {
  const double hazard = likeliestHazard(rows);
  const auto [robust, model] = cloglogVariances(hazard, rows);
  double used = std::max(robust, model);
  if (out.children == 1) {
    used = model * std::max(1.0, out.molars); // fully alike molars inform as one would
    out.notes.push_back(AttackRateNote::oneChild);
  } else {
    out.robustVariance = robust;
    if (robust < model) out.notes.push_back(AttackRateNote::varianceRaised);
  }
  const double reach = normalQuantile((1 + level) / 2) * std::sqrt(used);
  out.annual = annualFrom(hazard);
  out.low = annualFrom(hazard * std::exp(-reach));
  out.high = annualFrom(hazard * std::exp(reach));
  out.cloglog = std::log(hazard);
  out.standardError = std::sqrt(used);
  out.modelVariance = model;
}

// The largest hazard at which seeing none affected has probability `tail`; closed form.
double highestWithNone(double molarYears, double weight, double tail) {
  return -std::log(tail) / (weight * molarYears);
}

// The smallest hazard at which seeing all affected has probability `tail`.
double lowestWithAll(std::span<const Exposure> rows, double weight, double tail) {
  const auto logChance = [&](double hazard) {
    double sum = 0;
    for (const auto& row : rows)
      sum += weight * row.examined * std::log(annualFrom(hazard * row.years));
    return sum;
  };
  double low = 0;
  double high = 1;
  while (logChance(high) < std::log(tail))
    high *= 2;
  for (int i = 0; i < 200; ++i) {
    const double middle = low + (high - low) / 2;
    (logChance(middle) < std::log(tail) ? low : high) = middle;
  }
  return high;
}

void fillBoundary(AttackRateEstimate& out, std::span<const Exposure> rows, double level) {
  const double tail = (1 - level) / 2;
  const double asChildren = std::min(1.0, static_cast<double>(out.children) / out.molars);
  if (out.affected == 0) {
    out.high = annualFrom(highestWithNone(out.molarYears, 1, tail));
    out.conservative = {0, annualFrom(highestWithNone(out.molarYears, asChildren, tail))};
    out.notes.push_back(AttackRateNote::noneAffected);
    return;
  }
  out.annual = 1;
  out.high = 1;
  out.low = annualFrom(lowestWithAll(rows, 1, tail));
  out.conservative = {annualFrom(lowestWithAll(rows, asChildren, tail)), 1};
  out.notes.push_back(AttackRateNote::allAffected);
}

} // namespace

bool AttackRateEstimate::has(AttackRateNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<AttackRateEstimate> attackRate(std::span<const Exposure> rows, double level) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  const auto kept = keepExposure(rows);
  if (!kept) return kept.error();
  if (kept->rows.empty()) return nothingKept(*kept, rows.size());
  AttackRateEstimate out{};
  out.children = kept->children;
  out.molars = kept->molars;
  out.affected = kept->affected;
  out.molarYears = kept->molarYears;
  out.rowsLeftOut = kept->rowsLeftOut;
  out.molarsLeftOut = kept->molarsLeftOut;
  if (out.rowsLeftOut > 0) out.notes.push_back(AttackRateNote::shortExposures);
  if (out.affected == 0 || out.affected == out.molars)
    fillBoundary(out, kept->rows, level);
  else
    fillInterior(out, kept->rows, level);
  return out;
}

} // namespace gk::estimates
