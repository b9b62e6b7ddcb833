#include "estimates/compare/shrinkage.h"

#include "estimates/numbers/checks.h"
#include "estimates/shares/retention.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

constexpr double mostTeeth = 1e6;
// alpha + beta is sought between these; beyond, the limits are taken.
constexpr double leastSum = 1e-3;
constexpr double mostSum = 1e7;
constexpr double gridStep = 1.5;
constexpr double leastGain = 1e-9; // of the log-likelihood over no spread

// How many units have more than j kept, lost, or examined; the last of a fractional count in part.
using Tally = std::vector<double>;

void tally(Tally& counts, double value) {
  const auto whole = static_cast<std::size_t>(value);
  const double part = value - static_cast<double>(whole);
  if (counts.size() < whole + 1) counts.resize(whole + 1, 0);
  for (std::size_t j = 0; j < whole; ++j)
    counts[j] += 1;
  counts[whole] += part;
}

// The marginal likelihood as products over teeth, which stays exact as the spread rho goes to 0:
// sum A_j log(mu (1 - rho) + j rho) + sum B_j log((1 - mu)(1 - rho) + j rho)
// - sum C_j log(1 - rho + j rho).
class Likelihood {
 public:
  explicit Likelihood(std::span<const Unit> units) {
    for (const auto& unit : units) {
      tally(kept_, unit.kept);
      tally(lost_, unit.examined - unit.kept);
      tally(examined_, unit.examined);
    }
  }

  [[nodiscard]] double at(double mean, double rho) const {
    return logs(kept_, mean, rho) + logs(lost_, 1 - mean, rho) - logs(examined_, 1, rho);
  }

  // Concave in the mean, so safeguarded Newton cannot miss. Needs some kept and some lost.
  [[nodiscard]] double bestMean(double rho) const {
    double low = 0;
    double high = 1;
    double mean = 0.5;
    for (int i = 0; i < 200; ++i) {
      const auto [keptSlope, keptBend] = slopes(kept_, mean, rho);
      const auto [lostSlope, lostBend] = slopes(lost_, 1 - mean, rho);
      const double slope = keptSlope - lostSlope;
      (slope > 0 ? low : high) = mean;
      const double newton = mean + slope / (keptBend + lostBend);
      const double next = newton > low && newton < high ? newton : (low + high) / 2;
      if (std::fabs(next - mean) <= 1e-15) return next;
      mean = next;
    }
    return mean;
  }

  // d log-likelihood / d rho at a fixed mean; along bestMean it is the slope of the profile.
  [[nodiscard]] double slopeInRho(double mean, double rho) const {
    return rhoSlope(kept_, mean, rho) + rhoSlope(lost_, 1 - mean, rho) -
           rhoSlope(examined_, 1, rho);
  }

 private:
  static double term(double share, double rho, std::size_t j) {
    return share * (1 - rho) + static_cast<double>(j) * rho;
  }

  static double logs(const Tally& counts, double share, double rho) {
    double sum = 0;
    for (std::size_t j = 0; j < counts.size(); ++j)
      if (counts[j] > 0) sum += counts[j] * std::log(term(share, rho, j));
    return sum;
  }

  static std::pair<double, double> slopes(const Tally& counts, double share, double rho) {
    double slope = 0;
    double bend = 0;
    for (std::size_t j = 0; j < counts.size(); ++j) {
      if (counts[j] == 0) continue;
      const double each = (1 - rho) / term(share, rho, j);
      slope += counts[j] * each;
      bend += counts[j] * each * each;
    }
    return {slope, bend};
  }

  static double rhoSlope(const Tally& counts, double share, double rho) {
    double sum = 0;
    for (std::size_t j = 0; j < counts.size(); ++j)
      if (counts[j] > 0) sum += counts[j] * (static_cast<double>(j) - share) / term(share, rho, j);
    return sum;
  }

  Tally kept_;
  Tally lost_;
  Tally examined_;
};

double rhoOf(double sum) {
  return 1 / (1 + sum);
}

struct Peak {
  double sum; // alpha + beta
  double mean;
};

double profile(const Likelihood& likelihood, double sum) {
  const double rho = rhoOf(sum);
  return likelihood.at(likelihood.bestMean(rho), rho);
}

// The profile may have more than one hill, so a grid finds the highest and the slope its top.
Peak highest(const Likelihood& likelihood) {
  double best = leastSum;
  double value = profile(likelihood, best);
  for (double sum = leastSum; sum <= mostSum; sum *= gridStep) {
    const double here = profile(likelihood, sum);
    if (here <= value) continue;
    value = here;
    best = sum;
  }
  double low = best / gridStep; // rho too large here, so the profile falls in rho
  double high = best * gridStep;
  for (int i = 0; i < 100; ++i) {
    const double middle = std::sqrt(low * high);
    if (middle <= low || middle >= high) break;
    const double rho = rhoOf(middle);
    (likelihood.slopeInRho(likelihood.bestMean(rho), rho) < 0 ? low : high) = middle;
  }
  const double sum = std::sqrt(low * high);
  return {sum, likelihood.bestMean(rhoOf(sum))};
}

void place(Shrinkage& out, std::span<const Unit> units, std::optional<double> sum) {
  for (const auto& [examined, kept] : units) {
    ShrunkenUnit one{std::nullopt, out.mean, 0};
    if (examined > 0) one.raw = kept / examined;
    if (sum && examined > 0) {
      one.ownWeight = examined / (examined + *sum);
      one.shrunken = one.ownWeight * *one.raw + (1 - one.ownWeight) * out.mean;
    }
    out.units.push_back(one);
  }
}

void fit(Shrinkage& out, std::span<const Unit> units) {
  const Likelihood likelihood(units);
  const double pooled = out.mean;
  const double without = likelihood.at(pooled, 0);
  const bool eachAllOrNone = std::all_of(units.begin(), units.end(), [](const Unit& unit) {
    return unit.kept == 0 || unit.kept == unit.examined;
  });
  const Peak peak = highest(likelihood);
  const double value = likelihood.at(peak.mean, rhoOf(peak.sum));
  if (value <= without + leastGain) {
    out.logLikelihood = without;
    out.notes.push_back(ShrinkageNote::noOverdispersion);
    place(out, units, std::nullopt);
    return;
  }
  out.logLikelihood = value;
  out.mean = peak.mean;
  if (eachAllOrNone && peak.sum <= leastSum * gridStep) {
    out.overdispersion = 1;
    out.notes.push_back(ShrinkageNote::eachAllOrNone);
    place(out, units, 0.0);
    return;
  }
  out.overdispersion = rhoOf(peak.sum);
  out.alpha = peak.mean * peak.sum;
  out.beta = (1 - peak.mean) * peak.sum;
  place(out, units, peak.sum);
}

base::Result<base::Done> checkUnit(const Unit& unit, std::size_t place) {
  const std::string where = "Unit " + std::to_string(place);
  if (auto checked = checkPart(where, unit.kept, unit.examined); !checked) return checked;
  if (unit.examined <= mostTeeth) return base::Done{};
  return refused(where + ": " + shown(unit.examined) +
                 " examined; shrinkage is for small units, so leave out one above 1,000,000.");
}

} // namespace

bool Shrinkage::has(ShrinkageNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<Shrinkage> shrunken(std::span<const Unit> units) {
  double examined = 0;
  double kept = 0;
  std::size_t withTeeth = 0;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (auto checked = checkUnit(units[i], i + 1); !checked) return checked.error();
    examined += units[i].examined;
    kept += units[i].kept;
    if (units[i].examined > 0) ++withTeeth;
  }
  if (withTeeth == 0)
    return refused("No tooth was examined among " + std::to_string(units.size()) +
                   " units; shrinkage needs at least one.");
  Shrinkage out{};
  out.mean = kept / examined;
  if (withTeeth > 1 && withTeeth < fewestClusters) out.notes.push_back(ShrinkageNote::fewUnits);
  if (withTeeth < units.size()) out.notes.push_back(ShrinkageNote::emptyUnits);
  if (withTeeth == 1) {
    out.notes.push_back(ShrinkageNote::oneUnit);
    place(out, units, 0.0);
    return out;
  }
  if (kept == 0 || kept == examined) {
    out.notes.push_back(ShrinkageNote::allOrNone);
    place(out, units, std::nullopt);
    return out;
  }
  fit(out, units);
  return out;
}

} // namespace gk::estimates
