#include "base/text/text.h"
#include "roster/list/roster_list.h"

#include <algorithm>

namespace gk::roster {

using base::CsvRow;

std::string problemsCsv(std::span<const CsvRow> rows, const RosterLayout& layout,
                        std::span<const HeldRow> held) {
  std::size_t width = layout.columns.size();
  for (const auto& one : held)
    width = std::max(width, rows[one.row].cells.size());
  const auto lineOf = [&](const CsvRow& row, std::string problem) {
    auto cells = row.cells;
    cells.resize(width);
    cells.push_back(std::move(problem));
    return base::csvLine(cells);
  };
  std::string csv = "\xEF\xBB\xBF";
  if (layout.heading) csv += lineOf(rows[*layout.heading], "problem");
  for (const auto& one : held) {
    std::vector<std::string> words;
    for (const auto& problem : one.problems)
      words.push_back(problem.where + ": " + problem.what);
    csv +=
        lineOf(rows[one.row], "line " + std::to_string(one.line) + ", " + base::join(words, "; "));
  }
  return csv;
}

base::Error problemsError(std::span<const HeldRow> held) {
  constexpr std::size_t shown = 5;
  std::size_t count = 0;
  bool areDates = true;
  std::vector<std::string> told;
  for (const auto& row : held)
    for (const auto& problem : row.problems) {
      areDates = areDates && problem.isDate;
      if (++count <= shown)
        told.push_back("line " + std::to_string(row.line) + ", " + problem.where + ": " +
                       problem.what);
    }
  base::require(count > 0, "no problem to tell of");
  return {areDates ? base::ErrorCode::dateMalformed : base::ErrorCode::csvMalformed,
          base::counted(count, "problem", "problems") +
              " in the roster, nothing was imported: " + base::join(told, "; ") +
              (count > shown ? "; and " + std::to_string(count - shown) + " more" : "")};
}

} // namespace gk::roster
