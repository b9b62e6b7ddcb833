#pragma once

#include "estimates/shares/proportion.h"
#include "reports/term/term_totals.h"

#include <optional>
#include <span>
#include <vector>

namespace gk::reports {

/// What earlier terms came to, as far as planning asks.
struct PastCare {
  int consented = 0;
  int screened = 0;
  int needing = 0;
  int sealed = 0;      ///< of those needing: screened as well
  int sealedInAll = 0; ///< also those who were not, such as resealed at a recheck
  int teeth = 0;       ///< of all of these
  int days = 0;
  int enrolled = 0;            ///< where someone said how many
  int consentedOfEnrolled = 0; ///< at those schools
  std::vector<int> groups{};   ///< consented of each school and term: the clusters of the interval

  /// Of those enrolled; none where no one said how many are.
  [[nodiscard]] std::optional<double> consentShare() const;
};

PastCare pastCare(std::span<const TermTotals> terms);

/// What a planned day may come to. Without earlier terms nothing is expected but the children.
struct DayForecast {
  int children = 0; ///< who are expected that day
  std::optional<double> screened{};
  std::optional<double> needing{};
  std::optional<double> sealed{};
  std::optional<double> teeth{};
  /// Of the teeth: the 95 % interval of the share that is sealed (estimates::intervalToRead,
  /// schools of a term as clusters) times children and teeth for each sealed child. One day varies
  /// more.
  std::optional<estimates::Interval> teethRange{};
  std::optional<double> childrenPerDay{}; ///< screened on a day of earlier terms
};

/// The share that was screened of those with consent, that needed sealants of those screened, and
/// that was sealed of those in need, each on earlier terms' own counts.
DayForecast forecast(const PastCare& past, int children);

/// What to pack, for the upper end of what is expected where there is one. Common practice, no
/// source; docs/methods.md says how each is counted.
struct DaySupplies {
  int sealantDoses = 0;  ///< one for each tooth and one in ten more
  int varnishDoses = 0;  ///< one for each child with consent
  int isolationSets = 0; ///< two for each child who is sealed: right side, left side
  int glovePairs = 0;    ///< two people at each child
  int mirrors = 0;       ///< one for each child
};
DaySupplies supplies(const DayForecast& forecast);

} // namespace gk::reports
