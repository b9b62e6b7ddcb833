#include "reports/retention_report.h"

#include "estimates/follow_up.h"
#include "reports/cells.h"
#include "reports/early_checks.h"
#include "reports/found_table.h"
#include "reports/report_plots.h"
#include "reports/standing_out.h"
#include "reports/term_tables.h"
#include "reports/true_sentences.h"

namespace gk::reports {

namespace {

Table shrinkTable(const FactorComparison& schools) {
  Table table{"Small schools: as seen, and drawn towards the program",
              {{"Placed at"},
               right("Assessable"),
               right("Whole %, as seen"),
               right("95 % range"),
               right("Drawn to the program %"),
               right("Own weight %")},
              {},
              {}};
  for (const auto& value : schools.values) {
    const auto& line = value.line;
    table.rows.push_back({line.label, number(line.assessable), percent(line.whole, line.assessable),
                          rangeWords(line.whole95, line.unit),
                          value.shrunken ? share(value.shrunken->shrunken) : nothing,
                          value.shrunken ? share(value.shrunken->ownWeight) : nothing});
  }
  table.notes = {"Drawn by beta-binomial empirical Bayes (Griffiths 1973) on effective numbers, "
                 "teeth over the "
                 "design effect. It stands beside the figure as seen, never instead of it."};
  std::vector<DrawnUnit> drawn;
  for (const auto& value : schools.values)
    if (value.shrunken)
      drawn.push_back({static_cast<double>(value.line.assessable), value.shrunken->ownWeight});
  if (auto words = drawnWords(drawn, "teeth"); !words.empty())
    table.notes.push_back(std::move(words));
  table.plot = rangePlot(schools);
  for (const auto note : schools.shrinkageNotes) {
    if (note == estimates::ShrinkageNote::noOverdispersion)
      table.notes.emplace_back("The schools differ no more than chance makes them.");
    if (note == estimates::ShrinkageNote::fewUnits)
      table.notes.emplace_back("Few schools: how much they really differ is poorly known.");
  }
  return table;
}

Cells followUpRow(const RetentionLine& line) {
  Cells cells{line.label,
              number(line.childrenDue),
              number(line.childrenFound),
              percent(line.childrenFound, line.childrenDue),
              number(line.due),
              number(line.assessable),
              percent(line.assessable, line.due),
              percent(line.whole, line.assessable)};
  const auto bounds = estimates::followUpBounds(
      {static_cast<double>(line.due), static_cast<double>(line.assessable + line.lostUnfound),
       static_cast<double>(line.whole)});
  cells.push_back(bounds ? share(bounds->bounds.low) : nothing);
  cells.push_back(bounds ? share(bounds->bounds.high) : nothing);
  return cells;
}

Table followUpTable(const FactorComparison& schools) {
  Table table{
      "Follow-up, and what those not judged could change",
      {{"Placed at"},
       right("Children due"),
       right("Found"),
       right("Found %"),
       right("Teeth due"),
       right("Assessable"),
       right("Assessable %"),
       right("Whole %"),
       right("If none of the rest is whole %"),
       right("If all of the rest are whole %")},
      {},
      {"The last two hold whatever became of the sealants that nobody judged (Manski 1989): "
       "no assumption, and no sampling error in them. Sealants known as lost whose children were "
       "not "
       "found are counted as not whole in both.",
       "Published guidance asks for over 65 % seen at follow-up (Maryland Mighty Tooth, "
       "5.5)."}};
  for (const auto& value : schools.values)
    table.rows.push_back(followUpRow(value.line));
  table.rows.push_back(followUpRow(schools.total));
  return table;
}

} // namespace

std::vector<Table> retentionReport(const TermRecords& records,
                                   const RetentionReportOptions& options) {
  const RetentionFacts facts(records, options.comparison.retention);
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
                            foundTable(records, facts, choice),
                            earlyCheckTable(records),
                            curveTable(retentionCurve(records, options.curve, options.school),
                                       retentionCurve(records, worst, options.school),
                                       retentionCurve(records, kept, options.school))};
  for (const auto& one : compared)
    tables.push_back(comparisonTable(one));
  return tables;
}

} // namespace gk::reports
