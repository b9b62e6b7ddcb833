#include "reports/cells.h"
#include "reports/report_plots.h"
#include "reports/retention_report.h"

namespace gk::reports {

namespace {

using estimates::SpellState;

std::string survivalCell(const RetentionCurve& curve, double year) {
  if (!curve.curve) return nothing;
  const auto at = curve.curve->survivalAt(year);
  const auto low = base::fixed(100 * at.low, 1);
  const auto high = base::fixed(100 * at.high, 1);
  return low == high ? low : low + " to " + high;
}

std::string endsNote(const RetentionCurve& curve) {
  Cells parts;
  for (const auto state :
       {SpellState::failed, SpellState::whole, SpellState::cannotTell, SpellState::replaced,
        SpellState::restoredOver, SpellState::crowned, SpellState::extracted, SpellState::shed})
    if (const auto count = curve.ends.count(state); count > 0)
      parts.push_back((state == SpellState::cannotTell ? "never judged" : named(state)) + " " +
                      std::to_string(count));
  return "Of " + counted(curve.placements, "sealant", "sealants") + ": " + base::join(parts, ", ") +
         ".";
}

} // namespace

Table curveTable(const RetentionCurve& usual, const RetentionCurve& worst,
                 const RetentionCurve& wholeOrPart) {
  Table table{"Retention over time",
              {right("Years"), right("Whole %"), right("95 % band"), right("Whole %, worst case"),
               right("Whole or part %")},
              {},
              {}};
  if (!usual.curve || !usual.band) {
    table.notes = {"No check has judged a sealant yet."};
    return table;
  }
  for (const auto& point : usual.band->points)
    table.rows.push_back({base::fixed(point.time, 1), survivalCell(usual, point.time),
                          shareRange(point.band) + (point.isExactLimit ? ", exact limit" : ""),
                          survivalCell(worst, point.time), survivalCell(wholeOrPart, point.time)});
  table.notes = {
      endsNote(usual),
      "A sealant fails between the last check that found it whole and the first that did not; "
      "where two figures stand, nothing is known of the curve between them (Turnbull 1976). "
      "Nothing is known beyond the last check, at " +
          base::fixed(usual.lastCheck, 1) + " years.",
      "Crowned, extracted, shed: read as not yet failed when last seen whole; in the worst case as "
      "failed by then. A surface filled since, and a tooth sealed again without a look that found "
      "the sealant whole, had failed. A reseal begins anew. Children who were not found are taken "
      "to be like those who were.",
      "The band draws whole children with replacement" +
          std::string(usual.band->isFewChildren ? "; with so few it is likely too narrow." : ".")};
  if (usual.curve->has(estimates::SurvivalNote::notSettled))
    table.notes.emplace_back("The fit did not settle: read the curve as near the best, not at it.");
  table.plot = curvePlot(usual, worst);
  return table;
}

} // namespace gk::reports
