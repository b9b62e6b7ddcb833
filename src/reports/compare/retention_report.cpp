#include "reports/compare/retention_report.h"

#include "estimates/shares/follow_up.h"
#include "reports/compare/comparison_table.h"
#include "reports/compare/curve_table.h"
#include "reports/compare/found_table.h"
#include "reports/compare/retention_plots.h"
#include "reports/compare/standing_out.h"
#include "reports/decay/true_sentences.h"
#include "reports/print/cells.h"
#include "reports/print/said_choice.h"
#include "reports/records/term_view.h"
#include "reports/retention/early_checks.h"

#include <algorithm>
#include <array>
#include <limits>

namespace gk::reports {

namespace {

// Places in the report.
constexpr std::size_t opening = 0;
constexpr std::array<std::size_t, 2> ofAllSchools{1, 2};

Table shrinkTable(const FactorComparison& schools) {
  const bool isAdjusted = std::ranges::any_of(
      schools.values, [](const auto& value) { return value.shrunken.has_value(); });
  Table table{isAdjusted ? "Small schools: observed, and adjusted toward program average"
                         : "Small schools: observed",
              {texts("School where placed"), counts("Assessable"),
               shares("Fully retained %, observed"), ranges("95% CI")}};
  for (const auto& value : schools.values) {
    const auto& line = value.line;
    table.rows.push_back({line.label, line.assessable, shareOf(line.whole, line.assessable),
                          rangeCell(line.whole95, line.unit)});
    if (isAdjusted)
      table.rows.back().insert(table.rows.back().end(),
                               {value.shrunken ? shareOf(value.shrunken->shrunken) : noFigure,
                                value.shrunken ? shareOf(value.shrunken->ownWeight) : noFigure});
  }
  table.plot = rangePlot(schools);
  if (!isAdjusted) {
    table.notes = {notAdjustedWords()};
    return table;
  }
  table.columns.insert(table.columns.end(), {shares("Adjusted toward program average, %"),
                                             shares("Weight given to this school, %")});
  table.notes = {"Adjusted by beta-binomial empirical Bayes on effective numbers, teeth over "
                 "the design effect. It is shown beside the observed figure, never instead of "
                 "it."};
  std::vector<DrawnUnit> drawn;
  for (const auto& value : schools.values)
    if (value.shrunken)
      drawn.push_back({static_cast<double>(value.line.assessable), value.shrunken->ownWeight});
  if (auto words = drawnWords(drawn, "teeth"); !words.empty())
    table.notes.push_back(std::move(words));
  for (const auto note : schools.shrinkageNotes) {
    if (note == estimates::ShrinkageNote::noOverdispersion)
      table.notes.emplace_back(noDifferenceWords());
    if (note == estimates::ShrinkageNote::fewUnits)
      table.notes.emplace_back("Few schools: how much they really differ is uncertain.");
  }
  return table;
}

Cells followUpRow(const RetentionLine& line) {
  Cells cells{line.label,
              line.childrenDue,
              line.childrenFound,
              shareOf(line.childrenFound, line.childrenDue),
              line.due,
              line.assessable,
              shareOf(line.assessable, line.due),
              shareOf(line.whole, line.assessable)};
  const auto bounds = estimates::followUpBounds(
      {static_cast<double>(line.due), static_cast<double>(line.assessable + line.lostUnfound),
       static_cast<double>(line.whole)});
  cells.push_back(bounds ? shareOf(bounds->bounds.low) : noFigure);
  cells.push_back(bounds ? shareOf(bounds->bounds.high) : noFigure);
  return cells;
}

/// One school's line alone where one is chosen.
Table followUpTable(const FactorComparison& schools, std::optional<roster::SchoolId> chosen) {
  Table table{"Follow-up, and what sealants not assessed could change",
              {texts("School where placed"), counts("Students due", "children_due"),
               counts("Found"), shares("Found, %"), counts("Teeth due"), counts("Assessable"),
               shares("Assessable, %"), shares("Fully retained, %"),
               shares("If all not assessed failed, %"), shares("If all not assessed held, %")}};
  int due = 0;
  for (const auto& value : schools.values)
    if (!chosen || value.line.school == chosen) {
      table.rows.push_back(followUpRow(value.line));
      due += value.line.due;
    }
  if (!chosen) table.rows.push_back(followUpRow(schools.total));
  if (due > 0)
    table.notes = {"The last two are true whatever became of the sealants not assessed, not found "
                   "or not assessable: no assumption, and no sampling error in them. Sealants not "
                   "assessed but known to be missing by then count as failed in both.",
                   "Published state guidance asks for over 65% seen at follow-up."};
  else
    table.notes = {"No sealant is due for a check yet."};
  return table;
}

/// Which tables are of the school that is chosen, and why some are of all.
void sayWhose(std::vector<Table>& tables, const std::string& school) {
  tables.at(opening).notes.insert(tables.at(opening).notes.begin(),
                                  "Of " + school + " alone, but where schools are compared.");
  for (const auto place : ofAllSchools)
    tables.at(place).notes.insert(tables.at(place).notes.begin(),
                                  "Of all schools: " + school + " is compared with the others.");
  sayChoice(tables, school);
}

} // namespace

std::vector<Table> retentionReport(const TermView& view, const RetentionReportOptions& options) {
  const RetentionFacts facts(view, options.comparison.retention);
  Choice choice;
  // A school of which there is no sealant has no code, and no choice would mean all schools.
  constexpr auto nobodys = std::numeric_limits<FactorCode>::max();
  if (options.school) choice.of(Factor::school) = facts.codeOf(*options.school).value_or(nobodys);
  // One school is compared with the others, never with itself.
  auto schools = compareFactor(facts, Factor::school, Choice{}, options.comparison);
  constexpr std::array factors{
      Factor::light,    Factor::isolation, Factor::delivery, Factor::holding,  Factor::guards,
      Factor::wet,      Factor::arch,      Factor::tooth,    Factor::eruption, Factor::enamel,
      Factor::placedBy, Factor::pair,      Factor::lot};
  auto compared = compareFactors(facts, factors, choice, options.comparison);
  compared.push_back(std::move(schools));
  adjustTogether(compared);
  auto standingOut = standingOutTable(compared);
  schools = std::move(compared.back());
  compared.pop_back();
  auto worst = options.curve;
  worst.ends = estimates::EndReading::failedByThen;
  worst.replicates = 0;
  auto kept = worst;
  kept.ends = options.curve.ends;
  kept.partFails = false;
  std::vector<Table> tables{std::move(standingOut),
                            comparisonTable(schools),
                            shrinkTable(schools),
                            followUpTable(schools, options.school),
                            foundTable(view, facts, choice),
                            earlyCheckTable(view, options.school),
                            curveTable(retentionCurve(view, options.curve, options.school),
                                       retentionCurve(view, worst, options.school),
                                       retentionCurve(view, kept, options.school))};
  for (const auto& one : compared)
    tables.push_back(comparisonTable(one));
  if (options.school) sayWhose(tables, view.schoolName(*options.school));
  return tables;
}

} // namespace gk::reports
