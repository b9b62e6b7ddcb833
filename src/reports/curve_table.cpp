#include "reports/cells.h"
#include "reports/report_plots.h"
#include "reports/retention_report.h"

namespace gk::reports {

namespace {

using estimates::SpellState;

std::string survivalCell(const RetentionCurve& curve, double year) {
  if (!curve.curve) return nothing;
  const auto at = curve.survivalAt(year);
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

/// Whose sealants, and looks of which kind.
std::string cohortNote(const RetentionCurve& curve) {
  Cells kinds;
  for (const auto& [kind, count] : curve.kinds)
    kinds.push_back(named(kind) + " " + std::to_string(count));
  std::string words =
      "Placed from " + curve.firstPlaced->words() + " to " + curve.lastPlaced->words() + " at " +
      counted(curve.schools, "school", "schools") + "; looks: " + base::join(kinds, ", ") + ".";
  if (curve.schools > 1)
    words += " Schools were looked at at different ages, so a step may be a school's and not "
             "time's.";
  const auto has = [&](followup::CheckKind kind) { return curve.kinds.contains(kind); };
  if (has(followup::CheckKind::shortTermTriggered) || has(followup::CheckKind::opportunistic))
    words +=
        " Triggered looks and those of opportunity are among them: where a child was looked at "
        "because something was wrong, the curve is too low there.";
  return words;
}

} // namespace

Table curveTable(const RetentionCurve& usual, const RetentionCurve& worst,
                 const RetentionCurve& wholeOrPart) {
  Table table{"Retention over time",
              {right("Years"), right("Whole %"), right("95 % band"), right("Judged then or later"),
               right("Whole %, worst case"), right("Whole or part %")},
              {},
              {}};
  if (!usual.curve) {
    table.notes = {"No check has judged a sealant yet."};
    return table;
  }
  for (const auto& at : usual.readings)
    table.rows.push_back({base::fixed(at.year, 1), survivalCell(usual, at.year),
                          shareRange(at.band) + (at.isExactLimit ? ", exact limit" : ""),
                          number(static_cast<int>(at.followed)), survivalCell(worst, at.year),
                          survivalCell(wholeOrPart, at.year)});
  const auto looks =
      "A sealant fails between the last check that found it whole and the first that did not; "
      "where two figures stand, nobody looked between, and nothing is known of the curve between "
      "them (Turnbull 1976). Nobody looked before " +
      base::fixed(usual.looks.front(), 1) + " years or after " +
      base::fixed(usual.looks.back(), 1) + ": no figure stands there.";
  table.notes = {endsNote(usual), looks, cohortNote(usual)};
  table.notes.emplace_back(
      "Crowned, extracted, shed: read as not yet failed when last seen whole; in the worst case as "
      "failed by then. A surface filled since, and a tooth sealed again without a look that found "
      "the sealant whole, had failed. A reseal begins again. Children who were not found are taken "
      "to be like those who were.");
  table.notes.push_back(
      "The band draws whole children with replacement" +
      std::string(usual.isFewChildren ? "; with so few it is likely too narrow." : "."));
  if (usual.curve->has(estimates::SurvivalNote::notSettled))
    table.notes.emplace_back("The fit did not settle: read the curve as near the best, not at it.");
  table.plot = curvePlot(usual, worst);
  return table;
}

} // namespace gk::reports
