#pragma once

#include "reports/term/term_totals.h"

#include <array>

namespace gk::reports {

/// What school days cost, and whom and what they reached. All but `days` is of the days of which
/// costs were entered: cost and care are never of different days.
struct CostOfDays {
  std::string school;
  std::optional<roster::SchoolId> id{}; ///< none of the sum
  int days = 0;                         ///< held
  int daysCosted = 0;                   ///< of them, with costs; one that cost nothing is one
  std::array<roster::Cents, base::enumCount<roster::CostKind>> costs{};
  int seen = 0; ///< children screened, sealed, varnished or rechecked, each once
  int firstMolars = 0;
  int secondMolars = 0;
  int otherTeeth = 0;

  [[nodiscard]] roster::Cents total() const;
  [[nodiscard]] int teeth() const { return firstMolars + secondMolars + otherTeeth; }
};

/// One for each school, by name, and all of them at the end: a child seen at two schools is counted
/// at each, and once in all.
std::vector<CostOfDays> costsOf(const TermView& view);

/// Cost per child seen and per tooth sealed by school, and per cavity averted of the program, as
/// estimates; the range of the cavities averted is carried into the cost of each. For use inside
/// the program.
std::vector<Table> costReport(const TermView& view, const TermTotals& totals);

} // namespace gk::reports
