#pragma once

#include "estimates/attack_rate/attack_rate.h"
#include "estimates/averted/averted_scenarios.h"
#include "estimates/averted/money.h"
#include "reports/retention/retention_totals.h"

namespace gk::reports {

/// Second molars have a rate of their own from this many children who carry one (own choice).
inline constexpr std::size_t fewestForSecondMolars = 30;

/// The yearly attack rate of never-sealed first permanent molars, from `exposuresOf` the term. Its
/// limits go by the number of schools (estimates/attack_rate/attack_rate_program.h).
struct AttackRateReport {
  std::optional<estimates::AttackRateEstimate> estimate;
  std::string whyNot;        ///< when there is no estimate
  int everSealedLeftOut = 0; ///< first molars that someone has sealed, by the finding or our book
  int notSeenLeftOut = 0;    ///< not up, not looked at
  int extracted = 0;         ///< of affected first molars
  int seenBefore = 0;        ///< children left out, whom the program had screened before the term
  ClusterUnit unit = ClusterUnit::children;
  bool isSchoolPlanned = false; ///< of 2 or 3 schools, whose likeness within is a planning value
  /// Of second molars, from `fewestForSecondMolars` children on.
  std::optional<estimates::AttackRateEstimate> seconds;
  /// Children with one, never sealed, that was up long enough to count; and such molars affected.
  struct {
    std::size_t children = 0;
    int affected = 0;
  } secondsSeen{};
};

AttackRateReport attackRateOf(const TermView& view);

/// What the rate is of and what is left out, each sentence where it is so.
std::vector<std::string> attackNotes(const AttackRateReport& attack);

/// Why second molars have no rate of their own. Precondition: they have none.
std::string borrowedRateWords(const AttackRateReport& attack);

/// The rate of second molars; `isAdded`: what is averted in them is in one sum with first molars.
std::string secondsRateWords(const estimates::AttackRateEstimate& seconds, bool isAdded);

/// Sealed permanent molars of the term.
struct SealedMolars {
  int firsts = 0;
  int seconds = 0;
  [[nodiscard]] int all() const { return firsts + seconds; }
};

/// What this term's sealants on permanent molars can be expected to spare. The ranges of first and
/// second molars are added end to end, which errs on the wide side.
struct AvertedReport {
  std::optional<estimates::AvertedEstimate> averted;
  std::optional<estimates::AvertedEstimate> cautious; ///< with `estimates::cautiousEfficacy`
  /// First molars alone, where the second ones had to take the first ones' rate: the low line.
  std::optional<estimates::AvertedEstimate> firstsAlone;
  /// If none, and if all, of the teeth due and not looked at were protected; no sampling error in
  /// it.
  std::optional<estimates::Interval> ifNotLookedAt;
  bool addsTwoRanges = false; ///< those of first and of second molars, end to end
  std::string whyNot;         ///< "not enough data: ..." when there is no estimate
  int sealants = 0;
  int years = 0;
};

/// `retention` is the share of teeth protected at the one-year looks of this term, reseals
/// included.
AvertedReport avertedOf(const SealedMolars& molars, const AttackRateReport& attack,
                        const std::optional<estimates::RetentionEstimate>& retention, int years,
                        const std::optional<estimates::Interval>& bounds = std::nullopt);

/// In teeth, with its range.
Cell avertedCell(const estimates::AvertedEstimate& one);

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
  bool firstMolarsOnly = false; ///< second molars, which borrow the rate, left out
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
/// hand is not doubted), retention also over the bounds of those not looked at where given,
/// efficacy from `estimates::cautiousEfficacy` to 1, and the risk after loss over the interval of
/// Griffin 2009 at one year.
ScenarioReport scenarios(int molars, const AttackRateReport& attack,
                         const std::optional<estimates::RetentionEstimate>& retention,
                         const WhatIf& whatIf = {},
                         const std::optional<estimates::Interval>& bounds = std::nullopt);

} // namespace gk::reports
