#pragma once

#include "base/enum_names.h"
#include "reports/decay/finding_measures.h"
#include "reports/print/table.h"
#include "reports/publish/published_counts.h"

#include <array>
#include <span>

namespace gk::reports {

/// Indicators of the Basic Screening Survey for children (ASTDD manual), each of a child.
enum class Indicator { untreated, treated, experience, sealants, noProblem, early, urgent };

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Indicator> = std::to_array<std::string_view>(
    {"Untreated decay", "Treated decay", "Caries experience", "Sealants on permanent molars",
     "No obvious problem", "Early care needed", "Urgent care needed"});

/// What is stored is what a state's page says.
template <>
inline constexpr auto gk::base::displayNames<gk::reports::Indicator> =
    gk::base::enumNames<gk::reports::Indicator>;

namespace gk::reports {

struct IndicatorCount {
  int known = 0; ///< children of whom it could be told
  int with = 0;
  bool operator==(const IndicatorCount&) const = default;
};

/// Children of one grade group, each once.
struct IndicatorRow {
  std::string group;
  int screened = 0;
  std::array<IndicatorCount, base::enumCount<Indicator>> counts{};

  [[nodiscard]] const IndicatorCount& at(Indicator which) const {
    return counts[static_cast<std::size_t>(which)];
  }
};

/// Kindergarten, grade 3 (the two that states survey) and the other grades, each where a child of
/// it was screened, and all grades at the end.
std::vector<IndicatorRow> indicatorRows(std::span<const SeenChild> children);

struct PublishedIndicators {
  Table table;
  int exposed = 0; ///< small counts within reach all the same: it may not go out
};

/// Small counts suppressed, and with them what would give one away: by subtraction between grades,
/// between those with and without, between the three of decay (untreated, treated, either), between
/// the three of urgency, and since `earlier`, the figures of earlier issues, and `releases`, what
/// went out of the year's terms by school.
PublishedIndicators publishIndicators(const std::vector<IndicatorRow>& rows,
                                      const SuppressionRule& rule,
                                      std::span<const std::string> earlier = {},
                                      std::span<const Release> releases = {});

/// The table's title, by which earlier issues are found.
inline constexpr const char* indicatorTitle = "Basic screening indicators";

} // namespace gk::reports
