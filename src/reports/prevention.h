#pragma once

#include "estimates/attack_rate.h"
#include "estimates/averted.h"
#include "reports/retention_totals.h"

namespace gk::reports {

/// The yearly attack rate of never-sealed first permanent molars, from the term's screenings: the
/// first screening of each child, exposure from the mean eruption age by sex (default 6.2 years)
/// to the approximate age on the day, affected when cavitated, restored or crowned anywhere.
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

/// `molars` are this term's sealed first and second permanent molars, `retention` the whole rate of
/// the checks of this term.
AvertedReport avertedOf(int molars, const AttackRateReport& attack,
                        const std::optional<estimates::RetentionEstimate>& retention, int years);

} // namespace gk::reports
