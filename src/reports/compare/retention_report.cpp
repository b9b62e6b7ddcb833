#include "reports/compare/retention_report.h"

#include "estimates/follow_up.h"
#include "reports/compare/comparison_table.h"
#include "reports/compare/curve_table.h"
#include "reports/compare/found_table.h"
#include "reports/compare/retention_plots.h"
#include "reports/compare/standing_out.h"
#include "reports/decay/true_sentences.h"
#include "reports/print/cells.h"
#include "reports/retention/early_checks.h"

namespace gk::reports {

namespace {

Table shrinkTable(const FactorComparison& schools) {
  Table table{"Small schools: observed, and adjusted toward program average",
              {texts("School where placed"), counts("Assessable"),
               shares("Fully retained %, observed"), ranges("95% CI"),
               shares("Adjusted toward program average, %"),
               shares("Weight given to this school, %")}};
  for (const auto& value : schools.values) {
    const auto& line = value.line;
    table.rows.push_back({line.label, line.assessable, shareOf(line.whole, line.assessable),
                          rangeCell(line.whole95, line.unit),
                          value.shrunken ? shareOf(value.shrunken->shrunken) : noFigure,
                          value.shrunken ? shareOf(value.shrunken->ownWeight) : noFigure});
  }
  table.notes = {"Adjusted by beta-binomial empirical Bayes on effective numbers, teeth over "
                 "the design effect. It is shown beside the observed figure, never instead of "
                 "it."};
  std::vector<DrawnUnit> drawn;
  for (const auto& value : schools.values)
    if (value.shrunken)
      drawn.push_back({static_cast<double>(value.line.assessable), value.shrunken->ownWeight});
  if (auto words = drawnWords(drawn, "teeth"); !words.empty())
    table.notes.push_back(std::move(words));
  table.plot = rangePlot(schools);
  for (const auto note : schools.shrinkageNotes) {
    if (note == estimates::ShrinkageNote::noOverdispersion)
      table.notes.emplace_back("The schools differ no more than by chance.");
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

Table followUpTable(const FactorComparison& schools) {
  Table table{"Follow-up, and what unchecked sealants could change",
              {texts("School where placed"), counts("Children due"), counts("Found"),
               shares("Found, %"), counts("Teeth due"), counts("Assessable"),
               shares("Assessable, %"), shares("Fully retained, %"),
               shares("If all unchecked sealants failed, %"),
               shares("If all unchecked sealants held, %")},
              {"The last two are true whatever became of the unchecked sealants: no "
               "assumption, and no sampling error in them. Sealants known to be missing "
               "whose children were not found count as failed in both.",
               "Published state guidance asks for over 65% seen at follow-up."}};
  for (const auto& value : schools.values)
    table.rows.push_back(followUpRow(value.line));
  table.rows.push_back(followUpRow(schools.total));
  return table;
}

} // namespace

std::vector<Table> retentionReport(const TermView& view, const RetentionReportOptions& options) {
  const RetentionFacts facts(view, options.comparison.retention);
  Choice choice;
  if (options.school) choice.of(Factor::school) = facts.codeOf(*options.school);
  // One school is compared with the others, never with itself.
  auto schools = compareFactor(facts, Factor::school, Choice{}, options.comparison);
  constexpr std::array factors{
      Factor::light,    Factor::isolation, Factor::delivery, Factor::holding,  Factor::guards,
      Factor::wet,      Factor::arch,      Factor::tooth,    Factor::eruption, Factor::enamel,
      Factor::placedBy, Factor::pair,      Factor::lot};
  auto compared = compareFactors(facts, factors, choice, options.comparison);
  compared.push_back(std::move(schools));
  adjustTogether(compared);
  auto opening = standingOutTable(compared);
  schools = std::move(compared.back());
  compared.pop_back();
  auto worst = options.curve;
  worst.ends = estimates::EndReading::failedByThen;
  worst.replicates = 0;
  auto kept = worst;
  kept.ends = options.curve.ends;
  kept.partFails = false;
  std::vector<Table> tables{std::move(opening),
                            comparisonTable(schools),
                            shrinkTable(schools),
                            followUpTable(schools),
                            foundTable(view, facts, choice),
                            earlyCheckTable(view),
                            curveTable(retentionCurve(view, options.curve, options.school),
                                       retentionCurve(view, worst, options.school),
                                       retentionCurve(view, kept, options.school))};
  for (const auto& one : compared)
    tables.push_back(comparisonTable(one));
  return tables;
}

} // namespace gk::reports
