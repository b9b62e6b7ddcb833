#include "reports/print/table.h"

#include "base/contract.h"
#include "base/text.h"

#include <algorithm>

namespace gk::reports {

namespace {

std::vector<Table> without(std::vector<Table> tables, Where where) {
  for (auto& table : tables)
    for (auto i = table.columns.size(); i-- > 0;) {
      if (table.columns[i].where != where) continue;
      const auto at = static_cast<std::ptrdiff_t>(i);
      table.columns.erase(table.columns.begin() + at);
      for (auto& row : table.rows)
        row.erase(row.begin() + at);
    }
  return tables;
}

} // namespace

std::vector<Table> printed(std::vector<Table> tables) {
  return without(std::move(tables), Where::files);
}

std::vector<Table> filed(std::vector<Table> tables) {
  return without(std::move(tables), Where::paper);
}

std::string keyOf(std::string_view words, char joint) {
  std::string out;
  for (const char c : base::folded(words)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain)
      out += c;
    else if (!out.empty() && out.back() != joint)
      out += joint;
  }
  out.erase(out.find_last_not_of(joint) + 1);
  return out.empty() ? "table" : out;
}

std::string keyOf(const Table& table) {
  return table.key.empty() ? keyOf(partName(table)) : table.key;
}

std::string keyOf(const Column& column) {
  if (!column.key.empty()) return column.key;
  return keyOf(column.heading) + (column.kind == Kind::share ? "_share" : "");
}

std::size_t columnOf(const Table& table, std::string_view key) {
  const auto at = std::ranges::find_if(table.columns,
                                       [&](const Column& column) { return keyOf(column) == key; });
  base::require(at != table.columns.end(), "the table has the column");
  return static_cast<std::size_t>(at - table.columns.begin());
}

std::string cellShown(const Table& table, std::size_t row, std::size_t column) {
  auto words = table.rows[row][column].text();
  return table.columns[column].kind == Kind::date ? base::datesToRead(words) : words;
}

std::string cellToRead(const Table& table, std::size_t row, std::size_t column) {
  const bool isSame = row > 0 && table.rows[row - 1][column] == table.rows[row][column];
  return table.columns[column].group && isSame ? std::string() : cellShown(table, row, column);
}

std::vector<std::string> textsOf(const Cells& row) {
  std::vector<std::string> out;
  out.reserve(row.size());
  std::ranges::transform(row, std::back_inserter(out), &Cell::text);
  return out;
}

std::string_view partName(const Table& table) {
  return std::string_view(table.title).substr(0, table.title.find_first_of(":,"));
}

std::size_t namesOf(const Table& table) {
  std::size_t count = 0;
  while (count + 1 < table.columns.size() && table.columns[count].group)
    ++count;
  return count + 1;
}

} // namespace gk::reports
