#include "estimates/averted/averted_model.h"

#include "estimates/numbers/checks.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

constexpr int mostYears = 100;

base::Result<base::Done> checkCurve(const std::vector<double>& curve, int years) {
  if (curve.size() < static_cast<std::size_t>(years))
    return refused("The retention curve has " + std::to_string(curve.size()) + " years of " +
                   std::to_string(years) + "; give a value for each year.");
  for (std::size_t i = 0; i < curve.size(); ++i) {
    const std::string name = "The retention curve in year " + std::to_string(i + 1);
    if (auto checked = checkShare(name, curve[i]); !checked) return checked;
    if (i == 0 && curve[i] != 1)
      return refused(name + " is " + shown(curve[i]) + "; it is relative to year 1 and begins " +
                     "at 1.");
    if (i > 0 && curve[i] > curve[i - 1])
      return refused(name + " rises to " + shown(curve[i]) + "; a lost sealant does not come " +
                     "back, so it may only fall.");
  }
  return base::Done{};
}

base::Result<base::Done> checkInputs(const AvertedInputs& in) {
  if (auto checked = checkShare("The attack rate", in.attackRate); !checked) return checked;
  if (auto checked = checkShare("The one-year retention", in.retentionYearOne); !checked)
    return checked;
  if (auto checked = checkShare("The efficacy", in.efficacy); !checked) return checked;
  if (auto checked = checkCount("The number of sealants", in.sealants); !checked) return checked;
  if (auto checked = checkCount("The relative risk after loss", in.relativeRiskAfterLoss); !checked)
    return checked;
  if (in.attackRate * in.relativeRiskAfterLoss > 1)
    return refused("The attack rate times the relative risk after loss is above 1; lower one.");
  if (in.years < 0 || in.years > mostYears)
    return refused("The years are " + std::to_string(in.years) + "; give 0 to 100.");
  if (in.attackRateSe)
    if (auto checked = checkCount("The attack rate's standard error", *in.attackRateSe); !checked)
      return checked;
  if (in.retentionEffectiveN && !(*in.retentionEffectiveN >= 1 && *in.retentionEffectiveN <= 1e9))
    return refused("The effective number of teeth behind the retention is " +
                   shown(*in.retentionEffectiveN) + "; give a number of 1 or more.");
  return checkLevel(in.level);
}

} // namespace

base::Result<AvertedModel> AvertedModel::of(const AvertedInputs& inputs) {
  if (auto checked = checkInputs(inputs); !checked) return checked.error();
  auto curve = inputs.curve.empty() ? defaultRetentionCurve(inputs.years) : inputs.curve;
  if (auto checked = checkCurve(curve, inputs.years); !checked) return checked.error();
  curve.resize(static_cast<std::size_t>(inputs.years));
  return AvertedModel(std::move(curve), inputs.efficacy, inputs.relativeRiskAfterLoss);
}

// A drawn rate can be so high that the relative risk would pass certainty.
double AvertedModel::afterLoss(double rate) const {
  return std::min(1.0, rate * riskAfterLoss_);
}

double AvertedModel::slopeInRetention(double rate) const {
  const double lost = afterLoss(rate);
  const double kept = rate * (1 - efficacy_);
  double sum = 0;
  const auto years = static_cast<int>(curve_.size());
  for (int t = 1; t <= years; ++t)
    sum += curve_[static_cast<std::size_t>(t - 1)] * std::pow(1 - kept, t - 1) *
           std::pow(1 - lost, years - t);
  return (lost - kept) * sum;
}

double AvertedModel::perSealant(double rate, double retention) const {
  const auto years = static_cast<int>(curve_.size());
  const double neverRetained = std::pow(1 - afterLoss(rate), years) - std::pow(1 - rate, years);
  return neverRetained + retention * slopeInRetention(rate);
}

double AvertedModel::slopeInRate(double rate, double retention) const {
  const double lost = afterLoss(rate);
  const double leak = 1 - efficacy_;
  const double kept = rate * leak;
  const double difference = riskAfterLoss_ - leak;
  const auto years = static_cast<int>(curve_.size());
  // pow(x, n) where the factor n in front has made n = -1 count for nothing
  const auto power = [](double x, int n) { return n < 0 ? 0 : std::pow(x, n); };
  double slope = years * (power(1 - rate, years - 1) - riskAfterLoss_ * power(1 - lost, years - 1));
  for (int t = 1; t <= years; ++t) {
    const double before = power(1 - kept, t - 1);
    const double after = power(1 - lost, years - t);
    const double change =
        before * after - rate * leak * (t - 1) * power(1 - kept, t - 2) * after -
        rate * riskAfterLoss_ * (years - t) * before * power(1 - lost, years - t - 1);
    slope += retention * curve_[static_cast<std::size_t>(t - 1)] * difference * change;
  }
  return slope;
}

base::Result<std::vector<ChainYear>> avertedChain(const AvertedInputs& inputs) {
  const auto model = AvertedModel::of(inputs);
  if (!model) return model.error();
  std::vector<ChainYear> chain;
  ChainYear now{1, 0, 0, 0};
  double retainedBefore = 1;
  for (const double relative : model->curve()) {
    const double retained = inputs.retentionYearOne * relative;
    const double staying = retainedBefore > 0 ? retained / retainedBefore : 0;
    const double lost = now.sealedSound * (1 - staying);
    const double sealed = now.sealedSound - lost;
    const double unsealed = now.unsealedSound + lost;
    const double hitSealed = sealed * inputs.attackRate * (1 - inputs.efficacy);
    const double hitUnsealed = unsealed * inputs.attackRate * inputs.relativeRiskAfterLoss;
    now = {sealed - hitSealed, unsealed - hitUnsealed, now.carious + hitSealed + hitUnsealed,
           now.cariousWithout + (1 - now.cariousWithout) * inputs.attackRate};
    chain.push_back(now);
    retainedBefore = retained;
  }
  return chain;
}

bool atBoundary(double share) {
  return share <= 0 || share >= 1;
}

base::Result<base::Done> checkSimulation(const AvertedInputs& inputs, std::size_t draws) {
  if (draws < 100)
    return refused("The simulation has " + std::to_string(draws) + " draws; give 100 or more.");
  if (!inputs.attackRateSe && !inputs.retentionEffectiveN)
    return refused("Neither input has an uncertainty, so there is nothing to simulate; give the "
                   "attack rate's standard error or the retention's effective number of teeth.");
  if (inputs.attackRateSe && atBoundary(inputs.attackRate))
    return refused("The attack rate is " + shown(inputs.attackRate) +
                   ", where its standard error says nothing; use its limits as scenarios.");
  return base::Done{};
}

} // namespace gk::estimates
