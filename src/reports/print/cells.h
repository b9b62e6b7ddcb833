#pragma once

#include "base/text/text.h"
#include "reports/print/table.h"
#include "reports/records/words.h"

#include <functional>

namespace gk::reports {

/// Columns by what is in them.

inline Column texts(std::string heading, std::string key = {}) {
  return {std::move(heading), Kind::text, std::move(key)};
}
inline Column counts(std::string heading, std::string key = {}, std::string unit = {}) {
  return {std::move(heading), Kind::count, std::move(key), std::move(unit)};
}
/// Of which the rows behind each number can be shown.
inline Column counts(std::string heading, std::string key, Counted counted) {
  return {std::move(heading), Kind::count, std::move(key), {}, counted};
}
inline Column shares(std::string heading, std::string key = {}) {
  return {std::move(heading), Kind::share, std::move(key), "%"};
}
inline Column numbers(std::string heading, std::string key = {}, std::string unit = {}) {
  return {std::move(heading), Kind::number, std::move(key), std::move(unit)};
}
/// Ranges, and estimates with theirs.
inline Column ranges(std::string heading, std::string key = {}) {
  return {std::move(heading), Kind::range, std::move(key)};
}
inline Column dated(std::string heading, std::string key = {}) {
  return {std::move(heading), Kind::date, std::move(key)};
}
inline Column grouped(std::string heading, Kind kind = Kind::text) {
  return {.heading = std::move(heading), .kind = kind, .group = true};
}

/// A column, and what each row has in it: both said once.
template <class Row>
struct Made {
  Column column;
  std::function<Cell(const Row&)> of;
};

template <class Row>
Table tableOf(std::string title, const std::vector<Made<Row>>& made) {
  Table table{std::move(title), {}};
  for (const auto& one : made)
    table.columns.push_back(one.column);
  return table;
}
template <class Row>
void addRow(Table& table, const std::vector<Made<Row>>& made, const Row& row) {
  auto& cells = table.rows.emplace_back();
  for (const auto& one : made)
    cells.push_back(one.of(row));
}

/// What the page says in its sentences, and what is not for files.
inline Column inFiles(Column column) {
  column.where = Where::files;
  return column;
}
inline Column onPaper(Column column) {
  column.where = Where::paper;
  return column;
}

/// The only way to write a count in a sentence.
inline std::string number(int value) {
  return std::to_string(value);
}

} // namespace gk::reports
