#pragma once

#include "reports/decay/indicator_rows.h"
#include "reports/print/table.h"
#include "reports/publish/published_counts.h"

#include <map>
#include <span>

namespace gk::reports {

struct PublishedIndicators {
  Table table;
  int exposed = 0; ///< small counts within reach all the same: it may not go out
  /// What it tells that a term's tables tell too: screened by grade, and the findings of all.
  std::vector<ReleasedRow<Figure>> grades{};
  std::map<Figure, ReleasedRow<Figure>::Cell> findings{};
  std::vector<ReleasedRow<IndicatorFigure>> rows{}; ///< all that it tells
};

/// Small counts suppressed, and with them what would give one away: by subtraction between grades,
/// between those with and without, between the three of decay (untreated, treated, either), between
/// the three of urgency, and since `releases`: what went out of the year and its terms.
PublishedIndicators publishIndicators(const std::vector<IndicatorRow>& rows,
                                      const SuppressionRule& rule,
                                      std::span<const Release> releases = {});

/// The table's title.
inline constexpr const char* indicatorTitle = "Basic screening indicators";

} // namespace gk::reports
