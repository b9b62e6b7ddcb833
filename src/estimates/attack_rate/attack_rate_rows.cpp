#include "estimates/attack_rate/attack_rate_rows.h"

#include "base/contract.h"
#include "estimates/numbers/checks.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

constexpr double longestExposure = 150; // years; no child, and no overflow

bool isCount(double value) {
  return value >= 0 && value <= 1e9;
}

bool isGood(const Exposure& row) {
  return std::isfinite(row.years) && row.years <= longestExposure && isCount(row.examined) &&
         isCount(row.affected) && row.affected <= row.examined;
}

base::Error whatIsWrong(const Exposure& row, std::size_t place) {
  const std::string where = "Row " + std::to_string(place);
  if (!std::isfinite(row.years) || row.years > longestExposure)
    return refused(where + ": the exposure is " + shown(row.years) +
                   " years; check the age at screening and the age at eruption.");
  if (auto checked = checkCount(where + ": the count examined", row.examined); !checked)
    return checked.error();
  if (auto checked = checkCount(where + ": the count affected", row.affected); !checked)
    return checked.error();
  return refused(where + ": " + shown(row.affected) + " affected of " + shown(row.examined) +
                 " examined; correct one of the two.");
}

// Only when they are not together already: a register comes sorted by child, and a million rows
// need not be sorted twice.
std::size_t gatherChildren(std::vector<Exposure>& rows) {
  const auto byChild = [](const Exposure& a, const Exposure& b) { return a.child < b.child; };
  if (!std::is_sorted(rows.begin(), rows.end(), byChild))
    std::stable_sort(rows.begin(), rows.end(), byChild);
  std::size_t children = rows.empty() ? 0 : 1;
  for (std::size_t i = 1; i < rows.size(); ++i)
    if (rows[i].child != rows[i - 1].child) ++children;
  return children;
}

} // namespace

base::Result<KeptExposure> keepExposure(std::span<const Exposure> rows) {
  KeptExposure out;
  out.rows.reserve(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& row = rows[i];
    if (!isGood(row)) return whatIsWrong(row, i + 1);
    if (row.examined == 0) continue;
    if (row.years < shortestExposure) {
      ++out.rowsLeftOut;
      out.molarsLeftOut += row.examined;
      continue;
    }
    out.rows.push_back(row);
    out.molars += row.examined;
    out.affected += row.affected;
    out.molarYears += row.examined * row.years;
  }
  out.children = gatherChildren(out.rows);
  return out;
}

base::Error nothingKept(const KeptExposure& kept, std::size_t offered) {
  return refused("No never-sealed first molar has at least 0.25 years of exposure (" +
                 std::to_string(kept.rowsLeftOut) + " of " + std::to_string(offered) +
                 " rows were shorter); add screenings of older children or state a rate.");
}

double annualFrom(double hazard) {
  return -std::expm1(-hazard);
}

// The score in h is sum of y t / (exp(ht) - 1) - (n - y) t: convex and falling. From a start at or
// left of the root Newton climbs to it without overshooting, and events / molar-years is such a
// start because x / (exp(x) - 1) >= 1 - x.
double likeliestHazard(std::span<const Exposure> rows) {
  constexpr int most = 10'000;
  double affected = 0;
  double molarYears = 0;
  double soundYears = 0;
  for (const auto& [years, examined, hit, child] : rows) {
    affected += hit;
    molarYears += examined * years;
    soundYears += (examined - hit) * years;
  }
  double hazard = affected / molarYears;
  for (int i = 0; i < most; ++i) {
    double score = -soundYears;
    double slope = 0;
    for (const auto& [years, examined, hit, child] : rows) {
      if (hit == 0) continue;
      const double grown = std::expm1(hazard * years);
      const double part = hit * years / grown;
      score += part;
      slope += part * years * (1 + 1 / grown);
    }
    const double step = score / slope;
    hazard += step;
    if (std::fabs(step) <= 1e-13 * hazard) return hazard;
  }
  base::fail("the attack rate did not settle");
}

double logLikelihoodAt(double hazard, std::span<const Exposure> rows) {
  double out = 0;
  for (const auto& [years, examined, hit, child] : rows) {
    out -= (examined - hit) * years * hazard;
    if (hit > 0) out += hit * std::log(annualFrom(hazard * years));
  }
  return out;
}

CloglogTerm cloglogTerm(double hazard, const Exposure& row) {
  const double x = hazard * row.years;
  const double grown = std::expm1(x);
  return {x * (row.affected / grown - (row.examined - row.affected)), row.examined * x * x / grown};
}

CloglogVariances cloglogVariances(double hazard, std::span<const Exposure> rows) {
  double information = 0;
  double meat = 0;
  double score = 0;
  double m = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto term = cloglogTerm(hazard, rows[i]);
    information += term.information;
    score += term.score;
    if (i + 1 < rows.size() && rows[i + 1].child == rows[i].child) continue;
    meat += score * score;
    score = 0;
    ++m;
  }
  const double correction = m > 1 ? m / (m - 1) : 1;
  return {correction * meat / (information * information), 1 / information};
}

} // namespace gk::estimates
