#pragma once

#include "base/time/date.h"
#include "reports/print/table.h"

#include <optional>
#include <string>
#include <vector>

namespace gk::reports {

/// A planned day as it is shown and printed.
struct PlannedLine {
  base::Date day;
  std::string school{};
  int team = 1;
  int chairs = 1;
  std::string people{};
  std::optional<int> children{}; ///< none of a day that is over or canceled
  std::string basis{};           ///< where no form says who: what is counted on instead
  std::optional<double> teeth{};
  std::optional<std::pair<double, double>> teethRange{};
  std::string supplies{};
  std::string odd{}; ///< a conflict, in words
  std::string note{};
  bool canceled = false;
};

/// Names no child. A planned day that is canceled stays in it, marked so.
Table planTable(const std::string& term, const std::vector<PlannedLine>& days);
/// What to pack for each day that is still ahead; without rows where there is none.
Table packingTable(const std::string& term, const std::vector<PlannedLine>& days);

} // namespace gk::reports
