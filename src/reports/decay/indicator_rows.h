#pragma once

#include "base/enum_names.h"
#include "reports/decay/finding_measures.h"

#include <array>
#include <map>
#include <span>
#include <string>

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
  std::map<std::string, int> byGrade{}; ///< of those screened, by the grade of the child's card
  std::array<IndicatorCount, base::enumCount<Indicator>> counts{};

  [[nodiscard]] const IndicatorCount& at(Indicator which) const {
    return counts[static_cast<std::size_t>(which)];
  }
};

/// Kindergarten, grade 3 (the two that states survey) and the other grades, each where a child of
/// it was screened, and all grades at the end.
std::vector<IndicatorRow> indicatorRows(std::span<const SeenChild> children);

} // namespace gk::reports
