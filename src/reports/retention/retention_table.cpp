#include "reports/retention/retention_table.h"

namespace gk::reports {

Cells retentionRow(const RetentionLine& line) {
  if (line.hidden) {
    Cells cells(14, nothing);
    cells.front() = line.label;
    cells.back() = "too few teeth to show";
    return cells;
  }
  const auto& rate = line.whole95;
  const bool unstable = line.assessable < fewest;
  // As the interval beside it uses it.
  const double effect = !rate ? 0 : rate->toRead ? rate->toRead->designEffect : rate->designEffect;
  return {line.label,
          number(line.placed),
          number(line.due),
          number(line.childrenFound) + " of " + number(line.childrenDue),
          percent(line.childrenFound, line.childrenDue),
          number(line.examined),
          number(line.assessable),
          number(line.whole),
          number(line.part),
          number(line.lost),
          number(line.cannotAssess),
          percent(line.whole, line.assessable),
          rangeWords(rate, line.unit),
          rate ? base::fixed(effect, 2) + (unstable ? ", few teeth" : "") : nothing};
}

Table emptyRetentionTable(std::string title) {
  return {std::move(title),
          {{"School where placed"},
           right("Placed"),
           right("Due"),
           right("Children found"),
           right("Found, %"),
           right("Examined"),
           right("Assessable"),
           right("Fully retained"),
           right("Partially retained"),
           right("Missing"),
           right("Not assessable"),
           right("Fully retained, %"),
           right("95% CI"),
           {"Design effect"}},
          {},
          {}};
}

void addRetentionCautions(Table& table, const std::vector<RetentionLine>& lines) {
  table.notes.push_back(rangeNote(lines));
  table.notes.emplace_back(
      "Found children only: those who were not found may have kept fewer or more. "
      "Fully retained, % is of assessable.");
  table.notes.emplace_back(
      "The figures describe programs, not one child; small numbers are too few to "
      "judge an individual.");
}

Table retentionTable(std::string_view title, const std::vector<RetentionLine>& lines) {
  auto table = emptyRetentionTable(std::string(title));
  table.columns.front().heading = "Group";
  for (const auto& line : lines)
    table.rows.push_back(retentionRow(line));
  table.notes = {"In the order of their names, without rank. Such a comparison is observational: "
                 "groups differ in children, teeth and schools too."};
  addRetentionCautions(table, lines);
  return table;
}

} // namespace gk::reports
