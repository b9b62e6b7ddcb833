#pragma once

#include "estimates/survival/survival_band.h"
#include "reports/records/term_view.h"

#include <map>
#include <vector>

namespace gk::reports {

struct CurveOptions {
  bool partFails = true; ///< a sealant found in part has failed; else only a lost one has
  estimates::EndReading ends = estimates::EndReading::lastWhole;
  std::size_t replicates = 500; ///< of the band; 0 for none
  std::uint64_t seed = 20'080'101;
  /// Years after placement at which the curve is read.
  std::vector<double> years = {0.5, 1, 1.5, 2, 3, 4, 5};
};

/// The curve at one age.
struct CurveReading {
  double year;
  estimates::Interval survival; ///< see RetentionCurve::survivalAt
  std::optional<estimates::Interval> band;
  bool isExactLimit = false;
  std::size_t settled = 0;  ///< children that an exact limit rests on, see estimates::BandPoint
  std::size_t followed = 0; ///< sealants looked at and judged at this age or later
};

/// How long sealants stay whole, from every check of any kind and age. Time is years of 365.25 days
/// from the placement's own clinic day. A reseal begins a spell of its own and ends the old one;
/// repairs and interim covers have none. A look because a loss was reported comes when there is one
/// and so tells nothing of the age: what it found lost has failed by the next look of another kind
/// at that tooth (docs/methods.md, 6). A tooth filled over, crowned, extracted or shed ends its
/// spell as last seen whole, or as failed by then in the worst case. Sealed again without a look
/// that found it whole, it failed before.
struct RetentionCurve {
  std::optional<estimates::SurvivalCurve> curve; ///< none before the first check
  std::vector<CurveReading> readings;            ///< at the years from the first look to the last
  bool isFewChildren = false;                    ///< the band is likely too narrow
  /// What the band resamples; of all placing schools together, by how many were checked.
  estimates::BandUnits units = estimates::BandUnits::children;
  std::size_t schoolsChecked = 0; ///< those whose sealants a look judged
  estimates::SpellTally ends;
  std::size_t placements = 0;
  /// Placed so lately that by their age no one has ever looked: in no other figure here.
  std::size_t tooYoung = 0;
  std::size_t checks = 0;         ///< but for those because a loss was reported
  std::size_t reportedChecks = 0; ///< those
  /// Sealants that such a check found failed, and none of another kind before: with a later look of
  /// another kind at their tooth, and without, which are in no `ends`.
  std::size_t reportedDated = 0;
  std::size_t reportedOpen = 0;
  std::size_t reportedOnly = 0; ///< judged by such a check alone, as not failed; in no `ends`
  double lastCheck = 0;         ///< years after placement; nothing is known beyond
  std::vector<double> looks{};  ///< ages, years, at which a sealant was judged; each once, rising
  std::map<followup::CheckKind, std::size_t> kinds{}; ///< of the checks
  std::optional<base::Date> firstPlaced{};
  std::optional<base::Date> lastPlaced{};
  std::size_t schools = 0; ///< that they were placed at

  /// From the last look at that age or before to the first at that age or after: between two looks
  /// nothing tells when what was lost was lost. Precondition: there is a curve.
  [[nodiscard]] estimates::Interval survivalAt(double year) const;
};

/// Of the records' placements up to the date of the report; of one placing school or of all.
RetentionCurve retentionCurve(const TermView& view, const CurveOptions& options = {},
                              std::optional<roster::SchoolId> school = std::nullopt);

} // namespace gk::reports
