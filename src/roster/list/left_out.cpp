#include "base/text/text.h"
#include "roster/list/roster_cells.h"
#include "roster/list/roster_columns.h"

#include <algorithm>

// What of a list is not read, said aloud: an allergy may stand in a column that no one chose.
namespace gk::roster {

std::vector<LeftOutColumn> leftOutColumns(std::span<const base::CsvRow> rows,
                                          const RosterLayout& layout) {
  std::vector<LeftOutColumn> found;
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    if (layout.columns[i] != RosterColumn::leftOut) continue;
    LeftOutColumn one{i, 0};
    bool isUsed = false;
    for (std::size_t at = layout.heading.value_or(0); at < rows.size(); ++at) {
      const auto& cells = rows[at].cells;
      if (i >= cells.size() || cells[i].empty()) continue;
      isUsed = true;
      if (layout.heading && at == *layout.heading) continue;
      const bool hasWord = std::ranges::any_of(
          cells[i], [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); });
      if (!hasWord) continue;
      const auto read = readHealth(cells[i]);
      if (std::ranges::find(read, FlagAction::stop, &HealthRead::action) != read.end()) ++one.stops;
    }
    if (isUsed) found.push_back(one);
  }
  return found;
}

std::vector<std::string> leftOutNotes(const std::vector<LeftOutColumn>& columns,
                                      const std::vector<std::string>& names) {
  std::vector<std::string> notes;
  std::vector<std::string> all;
  for (const auto& one : columns) {
    const auto name =
        one.column < names.size() ? names[one.column] : std::to_string(one.column + 1);
    if (one.stops > 0)
      notes.push_back("\xE2\x96\xB2 " + name + " is left out, but " +
                      base::counted(one.stops, "cell has", "cells have") +
                      " an allergy word, such as latex or acrylic. Say what this column is.");
    all.push_back(name);
  }
  if (!all.empty()) notes.push_back("Left out: " + base::join(all, ", ") + ".");
  return notes;
}

} // namespace gk::roster
