#include "reports/funder/state_report.h"

#include "reports/funder/state_indicators.h"
#include "reports/print/cells.h"
#include "reports/publish/publication.h"
#include "reports/publish/published_besides.h"
#include "reports/publish/release_lines.h"

#include <algorithm>

namespace gk::reports {

namespace {

constexpr const char* whoseChildren = "Students of this program, not a survey estimate";

Table headTable(base::Date asOf, const YearOptions& year) {
  Table table{whoseChildren, {texts("Report of"), texts("Value")}};
  table.key = "children_of_this_program";
  table.rows = {{"Program", year.program},
                {"County", year.county},
                {"Year", roster::wordsOf(year.year)},
                {"From", year.year.start.words()},
                {"Through", year.year.end.words()},
                {"Counted through", asOf.words()}};
  table.notes = {
      "These are students with consent, in schools that the program chose. They are not a sample "
      "of the state, a county or a grade, so the figures must not be compared with survey "
      "estimates as if they were.",
      "Each student counts once in the year, whatever terms and days it was seen on, by its "
      "current "
      "school and grade."};
  if (asOf < year.year.end) table.notes.emplace_back("The year is not over: figures will change.");
  return table;
}

constexpr std::array findings{Figure::untreated, Figure::early, Figure::urgent, Figure::decayKnown};

/// Findings by school stay out: the indicators tell them of all schools, and both together would
/// tell more than either hides.
bool isOfState(const Table& table) {
  return partName(table) != "Findings";
}

/// None of them is weighed against what is printed by school.
Release withoutFindings(Release release) {
  for (auto& row : release.term)
    for (const auto figure : findings)
      row.cells.erase(figure);
  release.indicators.clear();
  return release;
}

bool showsScreened(const Release& release) {
  const auto total =
      std::ranges::find_if(release.term, [](const auto& row) { return row.schools.empty(); });
  if (total == release.term.end()) return false;
  const auto cell = total->cells.find(Figure::screened);
  return cell != total->cells.end() && cell->second.showing != Showing::withheld;
}

} // namespace

StateReport stateReport(const TermView& view, const YearOptions& year, const SuppressionRule& rule,
                        std::span<const Release> earlier, const Groups& groups) {
  return stateReport({termTotals(view), seenChildren(view), view.records.asOf}, year, rule, earlier,
                     groups);
}

StateReport stateReport(const StateCounts& counts, const YearOptions& year,
                        const SuppressionRule& rule, std::span<const Release> earlier,
                        const Groups& groups) {
  std::vector<Release> bySchool;
  for (const auto& release : earlier)
    bySchool.push_back(withoutFindings(release));
  auto published = publish(counts.totals, rule, bySchool, groups, Findings::left);
  StateReport out{{headTable(counts.asOf, year)}, {}, published.exposed};
  auto indicators = publishIndicators(indicatorRows(counts.seen), rule, ofSameTerm(earlier));
  out.release = std::move(published.release);
  if (showsScreened(out.release)) {
    out.tables.push_back(std::move(indicators.table));
    out.exposed += indicators.exposed;
    out.release.grades = std::move(indicators.grades);
    out.release.indicators = std::move(indicators.rows);
    out.release.term.back().cells.merge(std::move(indicators.findings));
  } else {
    out.tables.push_back({indicatorTitle,
                          {grouped("Grade"), texts("Indicator")},
                          {"Omitted: with the tables below they would reveal a small number."}});
  }
  for (auto& table : published.tables)
    if (isOfState(table)) out.tables.push_back(std::move(table));
  if (published.shortTerm) out.tables.push_back(*std::move(published.shortTerm));
  return out;
}

Table stateFigures(std::span<const Table> tables, base::Date asOf, const YearOptions& year) {
  Table out{"State report: " + roster::wordsOf(year.year),
            {texts("scope"), texts("program"), texts("county"), texts("year_kind"), texts("year"),
             texts("from"), texts("through"), texts("counted_through"), texts("part"), texts("row"),
             texts("indicator"), texts("figure"), texts("value")}};
  const Cells head{"students of this program, not a survey estimate",
                   year.program,
                   year.county,
                   year.year.kind,
                   year.year.name,
                   year.year.start.iso(),
                   year.year.end.iso(),
                   asOf.iso()};
  for (const auto& table : tables) {
    if (table.title == whoseChildren) continue;
    const auto names = namesOf(table);
    for (const auto& row : table.rows)
      for (std::size_t i = names; i < row.size(); ++i) {
        if (row[i].as<Missing>()) continue;
        auto cells = head;
        cells.insert(cells.end(), {partName(table), row.front(), names > 1 ? row[1] : Cell(""),
                                   table.columns[i].heading, row[i]});
        out.rows.push_back(std::move(cells));
      }
  }
  return out;
}

} // namespace gk::reports
