#pragma once

#include "reports/compare/factor_comparison.h"
#include "reports/print/table.h"

#include <span>

namespace gk::reports {

/// At most so many sentences open the retention report.
inline constexpr std::size_t mostStandingOut = 5;

/// A value that differs from the rest by more than the number of looks explains.
struct StandingOut {
  Factor factor;
  std::vector<Factor> alsoCalled{}; ///< factors that part the same teeth in the same way
  std::string label;
  std::string others; ///< "the others", or the one other value; of two, `label` kept less
  int whole = 0;
  int assessable = 0;
  int othersWhole = 0;
  int othersAssessable = 0;
  std::optional<estimates::Interval>
      range{};                       ///< of the share, as the table of the factor prints it
  std::optional<double> oddsRatio{}; ///< none where it has no bound
  /// Of the odds ratio, at the level that Holm's step leaves it: it excludes 1 exactly where the
  /// step does. None where the odds ratio is 0 or has no bound; then p is of a permutation.
  std::optional<estimates::Interval> oddsRange{};
  double adjustedP = 1;
  bool isLess = false; ///< retained less often than the others, by the odds ratio
  FactorLevel level = FactorLevel::withinSchools;
  bool isSmall = false;
};

/// The values whose Holm-adjusted p is under 0.05 and whose range, where there is one, excludes
/// "no difference"; strongest first: by adjusted p, then by how far the odds ratio is from 1, then
/// as given. People are never among them. Precondition: `compared` was adjusted together.
std::vector<StandingOut> standingOut(std::span<const FactorComparison> compared);

/// One sentence each for the first `mostStandingOut`, with its caution; where none stands out, a
/// sentence that says so, or why nothing could be compared.
Table standingOutTable(std::span<const FactorComparison> compared);

/// "Sealants cured under light L-2 were fully retained less often than the others: ..."
std::string sentenceOf(const StandingOut& one);
/// What else may explain it.
std::string cautionOf(const StandingOut& one);

} // namespace gk::reports
