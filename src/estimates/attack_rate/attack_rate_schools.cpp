#include "estimates/attack_rate/attack_rate_schools.h"

#include "estimates/attack_rate/attack_rate_rows.h"
#include "estimates/numbers/checks.h"
#include "estimates/numbers/chi_squared.h"
#include "estimates/numbers/distributions.h"
#include "estimates/numbers/random_effects.h"
#include "estimates/shares/retention.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

// What cannot be all or none: half an affected and half a sound molar more, at the mean exposure.
double hazardWithHalfMolars(std::vector<Exposure> rows) {
  double molars = 0;
  double molarYears = 0;
  for (const auto& row : rows) {
    molars += row.examined;
    molarYears += row.examined * row.years;
  }
  rows.push_back({molarYears / molars, 1, 0.5, 0});
  return likeliestHazard(rows);
}

// A school's rows with a molar and enough exposure, and log(-log(1 - rate)) for the pooling.
struct OwnRate {
  std::vector<Exposure> rows;
  double cloglog;
};

// Information-weighted mean of the schools' design effects; empty when no school has one.
std::optional<double> pooledDesignEffect(std::span<const SchoolRate> schools) {
  double information = 0;
  double sum = 0;
  for (const auto& school : schools) {
    if (!school.raw || !school.raw->robustVariance) continue;
    const double own = 1 / *school.raw->modelVariance;
    information += own;
    sum += own * *school.raw->robustVariance * own;
  }
  if (information == 0) return std::nullopt;
  return std::max(1.0, sum / information);
}

double molarsPerChild(std::span<const SchoolRate> schools) {
  double molars = 0;
  double children = 0;
  for (const auto& school : schools) {
    if (!school.raw) continue;
    molars += school.raw->molars;
    children += static_cast<double>(school.raw->children);
  }
  return std::max(1.0, molars / children);
}

Interval annualInterval(double cloglog, double reach) {
  return {annualFrom(std::exp(cloglog - reach)), annualFrom(std::exp(cloglog + reach))};
}

// Molars that say nothing at a rate (all expected affected many times over) would give infinity.
double varianceAt(double hazard, const OwnRate& own, double designEffect) {
  constexpr double sayingNothing = 1e6; // on a logarithmic scale
  return std::min(sayingNothing, designEffect * cloglogVariances(hazard, own.rows).model);
}

// Share of the way to the mean.
double pullOf(const NormalUnit& own, const RandomEffects& found, std::size_t schools) {
  const auto k = static_cast<double>(schools);
  return k > 3 ? (k - 3) / (k - 1) * own.variance / (own.variance + found.tauSquared) : 0;
}

double centerOf(const NormalUnit& own, const RandomEffects& found, std::size_t schools) {
  return own.estimate - pullOf(own, found, schools) * (own.estimate - found.mean);
}

// Morris 1983, J Am Stat Assoc 78:47-55, sections 1 and 5, for unequal variances: the variance
// between schools is itself estimated, so less is shrunk and the interval widens with the distance
// shrunk. Under four schools that leaves no shrinkage at all.
void shrink(SchoolRate& school, const NormalUnit& own, const RandomEffects& found,
            const std::vector<NormalUnit>& units, double z) {
  const auto k = static_cast<double>(units.size());
  const double total = own.variance + found.tauSquared;
  const double pull = pullOf(own, found, units.size());
  const double away = own.estimate - found.mean;
  double variance = own.variance * (1 - (1 - found.variance / total) * pull);
  if (k > 3) {
    double typical = 0;
    for (const auto& unit : units)
      typical += unit.variance * found.variance / (unit.variance + found.tauSquared);
    variance += 2 / (k - 3) * pull * pull * (typical + found.tauSquared) / total * away * away;
  }
  const double center = centerOf(own, found, units.size());
  school.ownWeight = 1 - pull;
  school.shrunken = annualFrom(std::exp(center));
  school.interval = annualInterval(center, z * std::sqrt(variance));
}

void note(SchoolRates& out, std::size_t units, bool isAlike) {
  const auto any = [&out](auto claim) {
    return std::any_of(out.schools.begin(), out.schools.end(), claim);
  };
  if (units == 1)
    out.notes.push_back(SchoolRatesNote::oneSchool);
  else if (units < fewestClusters)
    out.notes.push_back(SchoolRatesNote::fewSchools);
  if (any([](const SchoolRate& school) { return school.hasHalfMolars; }))
    out.notes.push_back(SchoolRatesNote::halfMolars);
  if (any([](const SchoolRate& school) { return !school.raw; }))
    out.notes.push_back(SchoolRatesNote::emptySchools);
  if (units > 1 && out.tauSquared == 0) out.notes.push_back(SchoolRatesNote::tauAtZero);
  if (isAlike) out.notes.push_back(SchoolRatesNote::fullyAlike);
}

} // namespace

bool SchoolRates::has(SchoolRatesNote wanted) const {
  return std::find(notes.begin(), notes.end(), wanted) != notes.end();
}

base::Result<SchoolRates> schoolRates(std::span<const std::vector<Exposure>> schools,
                                      double level) {
  if (auto checked = checkLevel(level); !checked) return checked.error();
  SchoolRates out{};
  std::vector<std::optional<OwnRate>> own;
  std::vector<Exposure> all;
  for (std::size_t i = 0; i < schools.size(); ++i) {
    auto kept = keepExposure(schools[i]);
    if (!kept) return refused("School " + std::to_string(i + 1) + ", " + kept.error().detail);
    SchoolRate school{};
    own.emplace_back();
    if (!kept->rows.empty()) {
      auto raw = attackRate(schools[i], level);
      if (!raw) return raw.error();
      school.hasHalfMolars = !raw->cloglog;
      all.insert(all.end(), kept->rows.begin(), kept->rows.end());
      own.back() = OwnRate{kept->rows, raw->cloglog ? *raw->cloglog
                                                    : std::log(hazardWithHalfMolars(kept->rows))};
      school.raw = std::move(raw).value();
    }
    out.schools.push_back(std::move(school));
  }
  if (all.empty())
    return refused("None of the " + std::to_string(schools.size()) +
                   " schools has a never-sealed first molar with at least 0.25 years of exposure; "
                   "add screenings of older children.");

  const auto effect = pooledDesignEffect(out.schools);
  out.designEffect = effect.value_or(molarsPerChild(out.schools));
  // A variance at the school's own rate makes a school that chanced on a high rate the surer one;
  // at the common rate it is wrong where schools differ. So: at the common rate, then at the rates
  // shrunken under it.
  const double common = hazardWithHalfMolars(std::move(all));
  std::vector<NormalUnit> units;
  for (const auto& rate : own)
    if (rate) units.push_back({rate->cloglog, varianceAt(common, *rate, out.designEffect)});
  const RandomEffects first = randomEffects(units);
  std::vector<NormalUnit> again;
  for (const auto& rate : own)
    if (rate) {
      const double nearer = centerOf(units[again.size()], first, units.size());
      again.push_back({rate->cloglog, varianceAt(std::exp(nearer), *rate, out.designEffect)});
    }
  units = std::move(again);
  const RandomEffects found = randomEffects(units);

  const double tail = (1 + level) / 2;
  const double z = normalQuantile(tail);
  const auto count = static_cast<double>(units.size());
  out.annual = annualFrom(std::exp(found.mean));
  out.cloglog = found.mean;
  out.standardError = std::sqrt(found.adjustedVariance);
  const double point = units.size() > 1 ? studentQuantile(tail, count - 1) : z;
  out.interval = annualInterval(found.mean, point * out.standardError);
  if (units.size() > 2)
    out.prediction =
        annualInterval(found.mean, studentQuantile(tail, count - 2) *
                                       std::sqrt(found.tauSquared + found.adjustedVariance));
  out.tauSquared = found.tauSquared;
  out.tauSquaredMoments = found.tauSquaredMoments;
  out.q = found.q;
  if (units.size() > 1) out.qP = chiSquaredTail(found.q, count - 1);
  std::size_t next = 0;
  for (std::size_t i = 0; i < own.size(); ++i) {
    auto& school = out.schools[i];
    if (own[i]) {
      shrink(school, units[next++], found, units, z);
    } else {
      school.shrunken = out.annual;
      school.interval = out.prediction.value_or(Interval{0, 1});
    }
  }
  note(out, units.size(), !effect.has_value());
  return out;
}

} // namespace gk::estimates
