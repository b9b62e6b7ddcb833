#include "estimates/averted/averted.h"

#include "estimates/averted/averted_model.h"
#include "estimates/numbers/distributions.h"
#include "estimates/numbers/percentile.h"

#include <algorithm>
#include <cmath>

namespace gk::estimates {
namespace {

struct Logit {
  double center;
  double deviation;
};

// Sampling distribution of the first-year retention on the logit scale. At 0 and 1 the empirical
// logit (Haldane 1956) keeps both finite.
std::optional<Logit> retentionLogit(const AvertedInputs& inputs) {
  if (!inputs.retentionEffectiveN) return std::nullopt;
  const double n = *inputs.retentionEffectiveN;
  const double r = inputs.retentionYearOne;
  const bool edge = atBoundary(r);
  const double kept = n * r + (edge ? 0.5 : 0);
  const double lost = n * (1 - r) + (edge ? 0.5 : 0);
  return Logit{std::log(kept / lost), std::sqrt(1 / kept + 1 / lost)};
}

double fromLogit(double logit) {
  return 1 / (1 + std::exp(-logit));
}
double hazardOf(double rate) {
  return -std::log1p(-rate);
}

double deltaStandardError(const AvertedInputs& inputs, const AvertedModel& model) {
  const double a = inputs.attackRate;
  double variance = 0;
  if (inputs.attackRateSe) {
    const double perCloglog = (1 - a) * hazardOf(a); // da / d log(-log(1 - a))
    const double step =
        model.slopeInRate(a, inputs.retentionYearOne) * perCloglog * *inputs.attackRateSe;
    variance += step * step;
  }
  if (const auto logit = retentionLogit(inputs)) {
    const double r = fromLogit(logit->center);
    const double step = model.slopeInRetention(a) * r * (1 - r) * logit->deviation;
    variance += step * step;
  }
  return std::sqrt(variance);
}

// On the logit scale of the share averted, so that the limits stay between none and all; a loss
// has no such scale and keeps plain limits.
Interval deltaInterval(double perSealant, double error, double level) {
  const double z = normalQuantile((1 + level) / 2);
  if (perSealant <= 0 || perSealant >= 1) return {perSealant - z * error, perSealant + z * error};
  const double center = std::log(perSealant / (1 - perSealant));
  const double reach = z * error / (perSealant * (1 - perSealant));
  return {fromLogit(center - reach), fromLogit(center + reach)};
}

Interval holding(Interval interval, double value) {
  return {std::min(interval.low, value), std::max(interval.high, value)};
}

void addUncertainty(AvertedEstimate& out, const AvertedInputs& inputs, const AvertedModel& model) {
  if (!inputs.attackRateSe) out.notes.push_back(AvertedNote::attackRateTakenAsKnown);
  if (!inputs.retentionEffectiveN) out.notes.push_back(AvertedNote::retentionTakenAsKnown);
  if (!inputs.attackRateSe && !inputs.retentionEffectiveN) return;
  if (atBoundary(inputs.attackRate)) {
    out.notes.push_back(AvertedNote::attackRateAtBoundary);
    return;
  }
  const double error = deltaStandardError(inputs, model);
  auto each = deltaInterval(out.perSealant, error, inputs.level);
  if (inputs.retentionEffectiveN && atBoundary(inputs.retentionYearOne)) {
    out.notes.push_back(AvertedNote::retentionAtBoundary);
    const double r = fromLogit(retentionLogit(inputs)->center);
    each = holding(deltaInterval(model.perSealant(inputs.attackRate, r), error, inputs.level),
                   out.perSealant);
  }
  out.standardError = error * inputs.sealants;
  out.interval = Interval{each.low * inputs.sealants, each.high * inputs.sealants};
}

} // namespace

std::vector<double> defaultRetentionCurve(int years) {
  std::vector<double> curve;
  for (int year = 1; year <= years; ++year)
    curve.push_back(std::max(0.0, 1 - 0.05 * (year - 1)));
  return curve;
}

bool AvertedEstimate::has(AvertedNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<AvertedEstimate> averted(const AvertedInputs& inputs) {
  const auto model = AvertedModel::of(inputs);
  if (!model) return model.error();
  AvertedEstimate out{};
  out.perSealant = model->perSealant(inputs.attackRate, inputs.retentionYearOne);
  const double without = 1 - std::pow(1 - inputs.attackRate, inputs.years);
  out.averted = out.perSealant * inputs.sealants;
  out.withoutSealants = without * inputs.sealants;
  if (without > 0) out.preventedFraction = out.perSealant / without;
  if (out.perSealant < 0) out.notes.push_back(AvertedNote::negative);
  addUncertainty(out, inputs, *model);
  return out;
}

base::Result<AvertedSimulation> simulateAverted(const AvertedInputs& inputs, std::size_t draws,
                                                base::Random& random) {
  const auto model = AvertedModel::of(inputs);
  if (!model) return model.error();
  if (auto checked = checkSimulation(inputs, draws); !checked) return checked.error();
  const auto logit = retentionLogit(inputs);
  const double cloglog = std::log(hazardOf(inputs.attackRate));
  std::vector<double> results;
  results.reserve(draws);
  double sum = 0;
  for (std::size_t i = 0; i < draws; ++i) {
    double rate = inputs.attackRate;
    double kept = inputs.retentionYearOne;
    if (inputs.attackRateSe)
      rate = -std::expm1(-std::exp(cloglog + *inputs.attackRateSe * standardNormal(random)));
    if (logit) kept = fromLogit(logit->center + logit->deviation * standardNormal(random));
    results.push_back(inputs.sealants * model->perSealant(rate, kept));
    sum += results.back();
  }
  const auto count = static_cast<double>(draws);
  AvertedSimulation out{sum / count, 0, {}};
  for (const double result : results)
    out.standardDeviation += (result - out.mean) * (result - out.mean) / (count - 1);
  out.standardDeviation = std::sqrt(out.standardDeviation);
  std::sort(results.begin(), results.end());
  const double tail = (1 - inputs.level) / 2;
  out.interval = {percentile(results, tail), percentile(results, 1 - tail)};
  if (logit && atBoundary(inputs.retentionYearOne))
    out.interval =
        holding(out.interval,
                inputs.sealants * model->perSealant(inputs.attackRate, inputs.retentionYearOne));
  return out;
}

} // namespace gk::estimates
