#include "reports/prevention.h"

#include "reports/exposures.h"

#include <algorithm>

namespace gk::reports {

AttackRateReport attackRateOf(const TermRecords& records) {
  const auto exposures = exposuresOf(records);
  AttackRateReport report;
  report.everSealedLeftOut = exposures.everSealedLeftOut;
  report.notSeenLeftOut = exposures.notSeenLeftOut;
  auto estimate = estimates::attackRate(exposures.all());
  if (estimate)
    report.estimate = *std::move(estimate);
  else
    report.whyNot = "not enough data: no never-sealed first molar with enough time in the mouth";
  return report;
}

namespace {

/// Why there is nothing to count on; empty when there is.
std::string missing(int molars, bool hasAttack, const AttackRateReport& attack, bool hasRetention) {
  if (molars == 0) return "not enough data: no permanent molar was sealed this term";
  if (!hasAttack) return attack.whyNot;
  if (!hasRetention) return "not enough data: no one-year check this term";
  return {};
}

/// Griffin 2009, JADA 140:415-23: formerly sealed against never sealed, at one year.
constexpr estimates::Interval riskAfterLoss{0.817, 1.220};

} // namespace

AvertedReport avertedOf(int molars, const AttackRateReport& attack,
                        const std::optional<estimates::RetentionEstimate>& retention, int years) {
  AvertedReport report;
  report.sealants = molars;
  report.years = years;
  report.whyNot = missing(molars, attack.estimate.has_value(), attack, retention.has_value());
  if (!report.whyNot.empty()) return report;

  estimates::AvertedInputs inputs{attack.estimate->annual, retention->estimate,
                                  static_cast<double>(molars)};
  inputs.years = years;
  inputs.attackRateSe = attack.estimate->standardError;
  inputs.retentionEffectiveN = retention->effectiveN;
  const auto usual = estimates::averted(inputs);
  inputs.efficacy = estimates::cautiousEfficacy;
  const auto cautious = estimates::averted(inputs);
  if (!usual || !cautious) {
    report.whyNot = (usual ? cautious : usual).error().detail;
    return report;
  }
  report.averted = *usual;
  report.cautious = *cautious;
  return report;
}

ScenarioReport scenarios(int molars, const AttackRateReport& attack,
                         const std::optional<estimates::RetentionEstimate>& retention,
                         const WhatIf& whatIf) {
  ScenarioReport report;
  report.whyNot = missing(molars, attack.estimate || whatIf.attackRate, attack,
                          retention || whatIf.retentionYearOne);
  if (!report.whyNot.empty()) return report;

  estimates::AvertedInputs inputs{whatIf.attackRate ? *whatIf.attackRate : attack.estimate->annual,
                                  whatIf.retentionYearOne ? *whatIf.retentionYearOne
                                                          : retention->estimate,
                                  static_cast<double>(molars)};
  inputs.years = whatIf.years;
  inputs.efficacy = whatIf.efficacy;
  estimates::ScenarioRanges ranges;
  if (!whatIf.attackRate) {
    inputs.attackRateSe = attack.estimate->standardError;
    ranges.attackRate = estimates::Interval{attack.estimate->low, attack.estimate->high};
  }
  if (!whatIf.retentionYearOne) {
    inputs.retentionEffectiveN = retention->effectiveN;
    ranges.retentionYearOne = estimates::Interval{retention->low, retention->high};
  }
  ranges.efficacy = estimates::Interval{std::min(estimates::cautiousEfficacy, inputs.efficacy), 1};
  if (inputs.attackRate * riskAfterLoss.high <= 1) ranges.relativeRiskAfterLoss = riskAfterLoss;
  report.inputs = inputs;
  const auto estimate = estimates::averted(inputs);
  if (!estimate) {
    report.whyNot = estimate.error().detail;
    return report;
  }
  report.estimate = *estimate;
  if (const auto found = estimates::avertedScenarios(inputs, ranges)) report.scenarios = *found;
  if (whatIf.programCost && whatIf.costPerCavity) {
    const auto money =
        estimates::money(inputs, {*whatIf.programCost, *whatIf.costPerCavity, whatIf.discountRate});
    if (!money) {
      report.whyNot = money.error().detail;
      return report;
    }
    report.money = *money;
  }
  return report;
}

} // namespace gk::reports
