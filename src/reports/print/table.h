#pragma once

#include "base/date.h"
#include "reports/print/plot.h"

#include <string_view>

namespace gk::reports {

struct Column {
  std::string heading;
  bool number = false; ///< right-aligned
  bool group = false;  ///< the same again in the row below is not printed
  bool date = false;   ///< dates in it are 2026-11-17 for files; a person reads Nov 17, 2026
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

/// The cell as a person reads it, in every row.
inline std::string cellShown(const Table& table, std::size_t row, std::size_t column) {
  const auto& cell = table.rows[row][column];
  return table.columns[column].date ? base::datesToRead(cell) : cell;
}

/// The cell as it is printed.
inline std::string cellToRead(const Table& table, std::size_t row, std::size_t column) {
  const auto& cell = table.rows[row][column];
  const bool isSame = row > 0 && table.rows[row - 1][column] == cell;
  return table.columns[column].group && isSame ? std::string() : cellShown(table, row, column);
}

/// The title up to a colon or a comma, without the day or the choice: what the part is called.
inline std::string_view partName(const Table& table) {
  return std::string_view(table.title).substr(0, table.title.find_first_of(":,"));
}

} // namespace gk::reports
