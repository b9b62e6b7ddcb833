#include "reports/print/table.h"

#include "base/contract.h"
#include "base/text/text.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

template <class Is>
void dropColumns(Table& table, Is&& isToGo) {
  for (auto i = table.columns.size(); i-- > 0;) {
    if (!isToGo(table.columns[i])) continue;
    const auto at = static_cast<std::ptrdiff_t>(i);
    table.columns.erase(table.columns.begin() + at);
    for (auto& row : table.rows)
      row.erase(row.begin() + at);
  }
}

std::vector<Table> without(std::vector<Table> tables, Where where) {
  for (auto& table : tables)
    dropColumns(table, [&](const Column& column) { return column.where == where; });
  return tables;
}

} // namespace

std::vector<Table> printed(std::vector<Table> tables) {
  return without(std::move(tables), Where::files);
}

std::vector<Table> filed(std::vector<Table> tables) {
  return without(std::move(tables), Where::paper);
}

Table withoutEarlier(Table table) {
  dropColumns(table, [](const Column& column) { return column.isEarlier; });
  return table;
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
  auto words = toRead(table.rows[row][column]);
  // A note of several lines stays in its row.
  std::ranges::replace_if(
      words, [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
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

namespace {

/// Columns of one meaning, whatever the rows are called.
bool haveColumnsAlike(const Table& one, const Table& other) {
  const auto key = [](const Column& column) { return keyOf(column); };
  return std::ranges::equal(one.columns, other.columns, {}, key, key);
}

bool says(const Table& table, const std::string& note) {
  return !table.front && std::ranges::find(table.notes, note) != table.notes.end();
}

/// Tables with the columns that the note explains elsewhere, and without the note.
std::vector<std::string> lackingIt(std::span<const Table> tables, const std::string& note) {
  std::vector<std::string> titles;
  for (const auto& one : tables)
    if (!one.front && !says(one, note) && std::ranges::any_of(tables, [&](const Table& other) {
          return says(other, note) && haveColumnsAlike(one, other);
        }))
      titles.push_back(one.title);
  return titles;
}

/// How the note reads away from its tables, where it is as true; none where it stays below them.
std::optional<std::string> sharedWords(std::span<const Table> tables, const std::string& note) {
  constexpr int fewestToName = 3; // of two tables, to name a third is no shorter
  constexpr std::size_t mostNamed = 2;
  const auto times =
      std::ranges::count_if(tables, [&](const Table& table) { return says(table, note); });
  if (times < 2) return std::nullopt;
  const auto lacking = lackingIt(tables, note);
  if (lacking.empty()) return note;
  const bool isToldApart = std::ranges::none_of(tables, [&](const Table& table) {
    return says(table, note) && std::ranges::find(lacking, table.title) != lacking.end();
  });
  if (times < fewestToName || lacking.size() > mostNamed || !isToldApart) return std::nullopt;
  return note + " Not of: " + base::join(lacking, "; ") + ".";
}

} // namespace

NotesOnce notesOnce(std::span<const Table> tables) {
  NotesOnce out{{tables.begin(), tables.end()}, {}};
  std::set<std::string> moved;
  for (const auto& table : tables)
    for (const auto& note : table.notes) {
      if (!says(table, note) || moved.contains(note)) continue;
      if (auto words = sharedWords(tables, note)) {
        out.shared.push_back(*std::move(words));
        moved.insert(note);
      }
    }
  for (auto& table : out.tables)
    if (!table.front) // else its page is handed out by itself
      std::erase_if(table.notes, [&](const auto& note) { return moved.contains(note); });
  return out;
}

bool isList(const Table& table) {
  constexpr std::size_t fewColumns = 3; // a line of so few is read at once
  constexpr std::size_t longWords = 60; // beside a heading they would be a thin tall column
  const auto isShort = [](const Cell& cell) { return cell.text().size() <= longWords; };
  return table.rows.size() == 1 && table.columns.size() > fewColumns && !table.plot &&
         !table.front && std::ranges::all_of(table.rows.front(), isShort);
}

std::size_t namesOf(const Table& table) {
  std::size_t count = 0;
  while (count + 1 < table.columns.size() && table.columns[count].group)
    ++count;
  return count + 1;
}

} // namespace gk::reports
