#pragma once

#include "reports/plot.h"

namespace gk::reports {

struct Column {
  std::string heading;
  bool number = false; ///< right-aligned
  bool operator==(const Column&) const = default;
};

/// A report as a value: every row has one cell for each column, ready to show.
struct Table {
  std::string title;
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> notes; ///< definitions and cautions, printed under the rows
  std::optional<Plot> plot{};     ///< drawn from the rows; printed above them
  bool operator==(const Table&) const = default;
};

} // namespace gk::reports
