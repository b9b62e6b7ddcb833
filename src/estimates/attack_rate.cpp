#include "estimates/attack_rate.h"

#include "base/contract.h"
#include "estimates/checks.h"
#include "estimates/distributions.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

namespace gk::estimates {
namespace {

constexpr double longestExposure = 150; // years; no child, and no overflow

base::Result<base::Done> checkRow(const Exposure& row, std::size_t place) {
  const std::string where = "Row " + std::to_string(place);
  if (!std::isfinite(row.years) || row.years > longestExposure)
    return refused(where + ": the exposure is " + shown(row.years) +
                   " years; check the age at screening and the age at eruption.");
  if (auto checked = checkCount(where + ": the count examined", row.examined); !checked)
    return checked;
  if (auto checked = checkCount(where + ": the count affected", row.affected); !checked)
    return checked;
  if (row.affected <= row.examined) return base::Done{};
  return refused(where + ": " + shown(row.affected) + " affected of " + shown(row.examined) +
                 " examined; correct one of the two.");
}

double annualFrom(double hazard) {
  return -std::expm1(-hazard);
}

// The score in the yearly hazard h = -log(1 - a) is sum of y t / (exp(ht) - 1) - (n - y) t: convex
// and falling. From a start at or left of the root Newton climbs to it without overshooting, and
// events / molar-years is such a start because x / (exp(x) - 1) >= 1 - x.
double likeliestHazard(std::span<const Exposure> rows, double affected, double molarYears) {
  constexpr int most = 10'000;
  double hazard = affected / molarYears;
  for (int i = 0; i < most; ++i) {
    double score = 0;
    double slope = 0;
    for (const auto& [years, examined, hit, child] : rows) {
      const double grown = std::expm1(hazard * years);
      score += hit * years / grown - (examined - hit) * years;
      slope += hit * years * years / (grown * annualFrom(hazard * years));
    }
    const double step = score / slope;
    hazard += step;
    if (std::fabs(step) <= 1e-13 * hazard) return hazard;
  }
  base::fail("the attack rate did not settle");
}

struct Variances {
  double robust;
  double model;
};

// On the cloglog scale, eta = log h. The bread is the expected information, as a fitted glm has it.
Variances variancesAt(double hazard, std::span<const Exposure> rows) {
  double information = 0;
  std::map<std::size_t, double> scores;
  for (const auto& [years, examined, hit, child] : rows) {
    const double x = hazard * years;
    const double grown = std::expm1(x);
    information += examined * x * x / grown;
    scores[child] += x * (hit / grown - (examined - hit));
  }
  double meat = 0;
  for (const auto& [child, score] : scores)
    meat += score * score;
  const auto m = static_cast<double>(scores.size());
  const double correction = m > 1 ? m / (m - 1) : 1;
  return {correction * meat / (information * information), 1 / information};
}

void fillInterior(AttackRateEstimate& out, std::span<const Exposure> rows, double level) {
  const double hazard = likeliestHazard(rows, out.affected, out.molarYears);
  const auto [robust, model] = variancesAt(hazard, rows);
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

std::size_t countChildren(std::span<const Exposure> rows) {
  std::vector<std::size_t> children;
  for (const auto& row : rows)
    children.push_back(row.child);
  std::sort(children.begin(), children.end());
  const auto end = std::unique(children.begin(), children.end());
  return static_cast<std::size_t>(end - children.begin());
}

} // namespace

bool AttackRateEstimate::has(AttackRateNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<AttackRateEstimate> attackRate(std::span<const Exposure> rows, double level) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  AttackRateEstimate out{};
  std::vector<Exposure> kept;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (auto checked = checkRow(rows[i], i + 1); !checked) return checked.error();
    const auto& row = rows[i];
    if (row.examined == 0) continue;
    if (row.years < shortestExposure) {
      ++out.rowsLeftOut;
      out.molarsLeftOut += row.examined;
      continue;
    }
    kept.push_back(row);
    out.molars += row.examined;
    out.affected += row.affected;
    out.molarYears += row.examined * row.years;
  }
  if (kept.empty())
    return refused("No never-sealed first molar has at least 0.25 years of exposure (" +
                   std::to_string(out.rowsLeftOut) + " of " + std::to_string(rows.size()) +
                   " rows were shorter); add screenings of older children or state a rate.");
  if (out.rowsLeftOut > 0) out.notes.push_back(AttackRateNote::shortExposures);
  out.children = countChildren(kept);
  if (out.affected == 0 || out.affected == out.molars)
    fillBoundary(out, kept, level);
  else
    fillInterior(out, kept, level);
  return out;
}

} // namespace gk::estimates
