#include "base/text/text.h"
#include "reference/reference.h"

#include <catch2/catch.hpp>

namespace gk::reference {

std::vector<double> numbers(const base::CsvTable& table, const std::string& column) {
  const auto index = table.column(column);
  INFO("column " << column);
  REQUIRE(index);
  std::vector<double> out;
  for (const auto& row : table.rows) {
    const auto value = base::parseDouble(row.cells[*index]);
    INFO("line " << row.line);
    REQUIRE(value);
    out.push_back(*value);
  }
  return out;
}

std::vector<std::size_t> labels(const base::CsvTable& table, const std::string& column) {
  std::vector<std::size_t> out;
  for (const double value : numbers(table, column))
    out.push_back(static_cast<std::size_t>(value));
  return out;
}

} // namespace gk::reference
