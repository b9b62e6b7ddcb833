#include "reports/retention/retention_table.h"

#include <algorithm>

namespace gk::reports {

Cell labelCell(const RetentionLine& line) {
  return Named{line.label, line.code ? std::to_string(*line.code) : ""};
}

namespace {

using Line = RetentionLine;

const std::vector<Made<Line>>& columns() {
  static const std::vector<Made<Line>> made{
      {texts("School where placed", "placed_at"), labelCell},
      {counts("Placed", "placed", SealantCount::placed), &Line::placed},
      {counts("Due", "due", SealantCount::due), &Line::due},
      {counts("Students found", "children_found"),
       [](const Line& line) { return outOf(line.childrenFound, line.childrenDue); }},
      {shares("Found, %", "found_share"),
       [](const Line& line) { return shareOf(line.childrenFound, line.childrenDue); }},
      {counts("Examined", "examined", SealantCount::examined), &Line::examined},
      {counts("Assessable", "assessable", SealantCount::assessable), &Line::assessable},
      {counts("Fully retained", "whole", SealantCount::whole), &Line::whole},
      {counts("Partially retained", "part", SealantCount::part), &Line::part},
      {counts("Missing", "lost", SealantCount::lost), &Line::lost},
      {counts("Not assessable", "cannot_assess", SealantCount::cannotAssess), &Line::cannotAssess},
      {shares("Fully retained, %", "whole_share"),
       [](const Line& line) { return shareOf(line.whole, line.assessable); }},
      {ranges("95% CI", "whole_range"),
       [](const Line& line) { return rangeCell(line.whole95, line.unit); }},
      {texts("Design effect"), [](const Line& line) -> Cell {
         if (!line.whole95) return noFigure;
         // As the interval beside it uses it.
         const auto& rate = *line.whole95;
         const double effect = rate.toRead ? rate.toRead->designEffect : rate.designEffect;
         return numberOf(effect, 2).with(line.assessable < fewest ? ", few teeth" : "");
       }}};
  return made;
}

} // namespace

void addRetentionRow(Table& table, const RetentionLine& line) {
  if (!line.hidden) return addRow(table, columns(), line);
  auto& cells = table.rows.emplace_back(columns().size(), noFigure);
  cells.front() = labelCell(line);
  cells.back() = "too few teeth to show";
}

Table emptyRetentionTable(std::string title) {
  auto table = tableOf(std::move(title), columns());
  table.key = "retention";
  return table;
}

void addRetentionCautions(Table& table, const std::vector<RetentionLine>& lines) {
  table.notes.push_back(rangeNote(lines));
  const bool isAnyUnfound = std::ranges::any_of(
      lines, [](const RetentionLine& line) { return line.childrenFound < line.childrenDue; });
  table.notes.push_back(
      std::string(isAnyUnfound ? "Found students only: those who were not found may have kept "
                                 "fewer or more. "
                               : "") +
      "Fully retained, % is of assessable.");
  table.notes.emplace_back(
      "The figures describe programs, not one student; small numbers are too few to "
      "judge an individual.");
}

Table retentionTable(std::string_view title, const std::vector<RetentionLine>& lines) {
  auto table = emptyRetentionTable(std::string(title));
  // From the name of a group, its sealants.
  table.columns.front() = {"Group", Kind::text, "group", {}, SealantCount::placed};
  for (const auto& line : lines)
    addRetentionRow(table, line);
  table.notes = {"In the order of their names, without rank. Such a comparison is observational: "
                 "groups differ in students, teeth and schools too."};
  addRetentionCautions(table, lines);
  return table;
}

} // namespace gk::reports
