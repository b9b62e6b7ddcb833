#pragma once

#include "estimates/survival_band.h"
#include "reports/inputs.h"

namespace gk::reports {

struct CurveOptions {
  bool partFails = true; ///< a sealant found in part has failed; else only a lost one has
  estimates::EndReading ends = estimates::EndReading::lastWhole;
  std::size_t replicates = 500; ///< of the band; 0 for none
  std::uint64_t seed = 20'080'101;
  /// Years after placement at which the curve is read.
  std::vector<double> years = {0.5, 1, 1.5, 2, 3, 4, 5};
};

/// How long sealants stay whole, from every check of any kind and age. Time is years of 365.25 days
/// from the placement's own clinic day. A reseal begins a spell of its own and ends the old one;
/// repairs and interim covers have none. A tooth filled over, crowned, extracted or shed ends its
/// spell as last seen whole, or as failed by then in the worst case.
struct RetentionCurve {
  std::optional<estimates::SurvivalCurve> curve; ///< none before the first check
  std::optional<estimates::SurvivalBand> band;   ///< read at the years up to the last check
  estimates::SpellTally ends;
  std::size_t placements = 0;
  std::size_t checks = 0;
  double lastCheck = 0; ///< years after placement; nothing is known beyond
};

/// Of the records' placements up to the date of the report; of one placing school or of all.
RetentionCurve retentionCurve(const TermRecords& records, const CurveOptions& options = {},
                              std::optional<roster::SchoolId> school = std::nullopt);

} // namespace gk::reports
