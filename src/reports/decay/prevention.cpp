#include "reports/decay/prevention.h"

#include "reports/decay/exposures.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

AttackRateReport attackRateOf(const TermView& view) {
  const auto exposures = exposuresOf(view);
  AttackRateReport report;
  report.everSealedLeftOut = exposures.everSealedLeftOut;
  report.notSeenLeftOut = exposures.notSeenLeftOut;
  report.extracted = exposures.extracted;
  report.seenBefore = exposures.seenBefore;
  if (auto seconds = programRateOf(exposures.seconds)) {
    const auto& rate = seconds->rate;
    report.secondsSeen = {rate.children, static_cast<int>(rate.affected)};
    if (rate.children >= fewestForSecondMolars) report.seconds = rate;
  }
  if (auto found = programRateOf(exposures.schools)) {
    if (found->units == estimates::ProgramUnits::schools) report.unit = ClusterUnit::schools;
    report.isSchoolPlanned = found->units == estimates::ProgramUnits::childrenPlanned;
    report.estimate = std::move(found->rate);
  } else {
    report.whyNot = "not enough data: no never-sealed first molar of a student new to the program "
                    "with enough time in the mouth";
  }
  return report;
}

std::vector<std::string> attackNotes(const AttackRateReport& attack) {
  std::vector<std::string> notes{
      "Attack rate: each student once, at its first screening by the program; first "
      "molars never sealed."};
  if (attack.seenBefore > 0)
    notes.push_back("Not included, as the program had screened them before: " +
                    counted(attack.seenBefore, "student", "students") +
                    ". Where their sound molars were sealed, those left are not a fair sample.");
  if (attack.extracted > 0)
    notes.push_back("Affected molars include " + std::to_string(attack.extracted) +
                    " extracted: the reason is not recorded and is taken to be decay.");
  if (attack.everSealedLeftOut > 0)
    notes.push_back("Not included, as they were already sealed: " +
                    counted(attack.everSealedLeftOut, "first molar", "first molars") +
                    ". Whether that makes the rate too high or too low is not known: it depends on "
                    "whether those students were at less risk or at more.");
  if (attack.isSchoolPlanned) notes.push_back("The rate's CI: " + schoolPlannedWords());
  return notes;
}

std::string borrowedRateWords(const AttackRateReport& attack) {
  const auto& seen = attack.secondsSeen;
  return "Second molars use the first molars' rate: " +
         (seen.children == 0
              ? std::string(
                    "no student new to the program had one, never sealed, long enough to count")
              : counted(static_cast<int>(seen.children), "student", "students") +
                    " new to the program had one, never sealed, long enough to count (" +
                    counted(seen.affected, "such molar was", "such molars were") +
                    " affected), fewer than " + std::to_string(fewestForSecondMolars)) +
         ". The line for first molars only leaves second molars out.";
}

std::string secondsRateWords(const estimates::AttackRateEstimate& seconds, bool isAdded) {
  return "Second molars have a rate of their own: " + base::percent(seconds.annual) + "% a year (" +
         percentRange(seconds.toRead().low, seconds.toRead().high) + ")." +
         (isAdded ? " The two CIs are added end to end, which makes the sum wide." : "");
}

namespace {

/// Why there is nothing to count on; empty when there is.
std::string missing(int molars, bool hasAttack, const AttackRateReport& attack, bool hasRetention) {
  if (molars == 0) return "not enough data: no permanent molar was sealed";
  if (!hasAttack) return attack.whyNot;
  if (!hasRetention) return "not enough data: no sealed tooth was assessed after a year";
  return {};
}

/// The effective number behind the range that is printed of the same share.
double sizeOf(const estimates::RetentionEstimate& retention) {
  return std::max(1.0, retention.toRead ? retention.toRead->n : 1.0);
}

/// Griffin 2009, JADA 140:415-23: formerly sealed against never sealed, at one year.
constexpr estimates::Interval riskAfterLoss{0.817, 1.220};

/// Between the limits of a rate.
constexpr int ratesTried = 200;

} // namespace

namespace {

using Averted = base::Result<estimates::AvertedEstimate>;

/// A rate of 0 or 1 has no standard error: the range is over the rates within its limits and over
/// those of retention, which errs on the wide side. What is averted rises with the rate and falls
/// again, so that its most may lie between.
void addBoundaryRange(estimates::AvertedEstimate& out, estimates::AvertedInputs inputs,
                      const estimates::AttackRateEstimate& rate,
                      const estimates::RetentionEstimate& retention) {
  if (!out.has(estimates::AvertedNote::attackRateAtBoundary)) return;
  const auto limits = rate.toRead();
  // One child says next to nothing of all.
  const auto retained = retention.toRead ? retention.toRead->range : estimates::Interval{0, 1};
  double least = out.averted;
  double most = out.averted;
  for (int step = 0; step <= ratesTried; ++step)
    for (const double share : {retained.low, retained.high}) {
      inputs.attackRate = limits.low + (limits.high - limits.low) * step / ratesTried;
      inputs.retentionYearOne = share;
      const auto at = estimates::averted(inputs);
      if (!at) continue;
      least = std::min(least, at->averted);
      most = std::max(most, at->averted);
    }
  out.interval = estimates::Interval{least, most};
}

Averted avertedAt(int molars, const estimates::AttackRateEstimate& rate,
                  const estimates::RetentionEstimate& retention, int years, double efficacy) {
  estimates::AvertedInputs inputs{rate.annual, retention.estimate, static_cast<double>(molars)};
  inputs.years = years;
  inputs.attackRateSe = rate.standardError;
  inputs.retentionEffectiveN = sizeOf(retention);
  inputs.efficacy = efficacy;
  auto out = estimates::averted(inputs);
  if (out) addBoundaryRange(*out, inputs, rate, retention);
  return out;
}

/// Both kinds of molar together; the ends of the ranges added.
estimates::AvertedEstimate sumOf(estimates::AvertedEstimate one,
                                 const estimates::AvertedEstimate& other) {
  one.averted += other.averted;
  one.withoutSealants += other.withoutSealants;
  one.preventedFraction =
      one.withoutSealants > 0 ? std::optional(one.averted / one.withoutSealants) : std::nullopt;
  one.standardError.reset();
  if (one.interval && other.interval)
    one.interval = estimates::Interval{one.interval->low + other.interval->low,
                                       one.interval->high + other.interval->high};
  else
    one.interval.reset();
  return one;
}

Averted avertedOfBoth(const SealedMolars& molars, const AttackRateReport& attack,
                      const estimates::RetentionEstimate& retention, int years, double efficacy) {
  if (!attack.seconds) return avertedAt(molars.all(), *attack.estimate, retention, years, efficacy);
  auto firsts = avertedAt(molars.firsts, *attack.estimate, retention, years, efficacy);
  const auto seconds = avertedAt(molars.seconds, *attack.seconds, retention, years, efficacy);
  if (!firsts || !seconds) return firsts ? seconds : firsts;
  return sumOf(*std::move(firsts), *seconds);
}

} // namespace

AvertedReport avertedOf(const SealedMolars& molars, const AttackRateReport& attack,
                        const std::optional<estimates::RetentionEstimate>& retention, int years,
                        const std::optional<estimates::Interval>& bounds) {
  AvertedReport report;
  report.sealants = molars.all();
  report.years = years;
  report.whyNot = missing(molars.all(), attack.estimate.has_value(), attack, retention.has_value());
  if (!report.whyNot.empty()) return report;
  const auto usual = avertedOfBoth(molars, attack, *retention, years, 1);
  const auto cautious =
      avertedOfBoth(molars, attack, *retention, years, estimates::cautiousEfficacy);
  if (!usual || !cautious) {
    report.whyNot = (usual ? cautious : usual).error().detail;
    return report;
  }
  report.averted = *usual;
  report.cautious = *cautious;
  report.addsTwoRanges =
      attack.seconds && molars.firsts > 0 && molars.seconds > 0 && usual->interval.has_value();
  if (bounds) {
    auto end = *retention;
    end.estimate = bounds->low;
    const auto least = avertedOfBoth(molars, attack, end, years, 1);
    end.estimate = bounds->high;
    const auto most = avertedOfBoth(molars, attack, end, years, 1);
    if (least && most) report.ifNotLookedAt = estimates::Interval{least->averted, most->averted};
  }
  if (!attack.seconds && molars.seconds > 0)
    if (auto alone = avertedAt(molars.firsts, *attack.estimate, *retention, years, 1)) {
      report.firstsAlone = *std::move(alone);
      if (molars.firsts == 0) report.firstsAlone->interval.reset(); // of none none is certain
    }
  return report;
}

ScenarioReport scenarios(int molars, const AttackRateReport& attack,
                         const std::optional<estimates::RetentionEstimate>& retention,
                         const WhatIf& whatIf, const std::optional<estimates::Interval>& bounds) {
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
    ranges.attackRate = attack.estimate->toRead();
  }
  if (!whatIf.retentionYearOne) {
    inputs.retentionEffectiveN = sizeOf(*retention);
    if (retention->toRead) ranges.retentionYearOne = retention->toRead->range;
    if (bounds) {
      const auto own = ranges.retentionYearOne.value_or(*bounds);
      ranges.retentionYearOne =
          estimates::Interval{std::min(own.low, bounds->low), std::max(own.high, bounds->high)};
    }
  }
  ranges.efficacy = estimates::Interval{std::min(estimates::cautiousEfficacy, inputs.efficacy), 1};
  const double highestRate = ranges.attackRate ? ranges.attackRate->high : inputs.attackRate;
  ranges.relativeRiskAfterLoss = riskAfterLoss;
  // No yearly risk is above 1, whatever else is at its end.
  if (highestRate * riskAfterLoss.high > 1)
    ranges.relativeRiskAfterLoss->high = std::max(1.0, (1 - 1e-12) / highestRate);
  report.inputs = inputs;
  const auto estimate = estimates::averted(inputs);
  if (!estimate) {
    report.whyNot = estimate.error().detail;
    return report;
  }
  report.estimate = *estimate;
  const auto found = estimates::avertedScenarios(inputs, ranges);
  if (!found) {
    report.whyNot = found.error().detail;
    return report;
  }
  report.scenarios = *found;
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

Cell avertedCell(const estimates::AvertedEstimate& one) {
  Estimate cell{Number{one.averted, 0}, std::nullopt};
  if (one.interval) cell.range = {one.interval->low, one.interval->high, 0};
  return cell;
}

} // namespace gk::reports
