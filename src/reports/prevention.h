#pragma once

#include "estimates/attack_rate.h"
#include "estimates/averted_scenarios.h"
#include "estimates/money.h"
#include "reports/retention_totals.h"

namespace gk::reports {

/// The yearly attack rate of never-sealed first permanent molars, from `exposuresOf` the term.
struct AttackRateReport {
  std::optional<estimates::AttackRateEstimate> estimate;
  std::string whyNot;        ///< when there is no estimate
  int everSealedLeftOut = 0; ///< first molars that someone has sealed, by the finding or our book
  int notSeenLeftOut = 0;    ///< not up, not looked at
};

AttackRateReport attackRateOf(const TermRecords& records);

/// What this term's sealants on permanent molars can be expected to spare.
struct AvertedReport {
  std::optional<estimates::AvertedEstimate> averted;
  std::optional<estimates::AvertedEstimate> cautious; ///< with `estimates::cautiousEfficacy`
  std::string whyNot; ///< "not enough data: ..." when there is no estimate
  int sealants = 0;
  int years = 0;
};

/// `molars` are this term's sealed first and second permanent molars, `retention` the share of
/// teeth protected at the one-year looks of this term, reseals included.
AvertedReport avertedOf(int molars, const AttackRateReport& attack,
                        const std::optional<estimates::RetentionEstimate>& retention, int years);

/// What a manager may change on the way from this term's counts to teeth spared; empty means as
/// measured. Costs are the program's own, in one currency.
struct WhatIf {
  std::optional<double> attackRate{};
  std::optional<double> retentionYearOne{};
  int years = 9; ///< as Griffin, Jones and Crespin 2014
  double efficacy = 1;
  std::optional<double> programCost{};
  std::optional<double> costPerCavity{};
  double discountRate = 0.03;
};

/// The estimate under a what-if, with low, base and high scenarios, what each input alone would
/// change, and the money when both costs are given.
struct ScenarioReport {
  std::optional<estimates::AvertedInputs> inputs;
  std::optional<estimates::AvertedEstimate> estimate;
  std::optional<estimates::Scenarios> scenarios;
  std::optional<estimates::MoneyEstimate> money;
  std::string whyNot; ///< when there is no estimate
};

/// Ranges of the scenarios: attack rate and retention over their 95 % intervals (what is set by
/// hand is not doubted), efficacy from `estimates::cautiousEfficacy` to 1, and the risk after loss
/// over the interval of Griffin 2009 at one year.
ScenarioReport scenarios(int molars, const AttackRateReport& attack,
                         const std::optional<estimates::RetentionEstimate>& retention,
                         const WhatIf& whatIf = {});

} // namespace gk::reports
