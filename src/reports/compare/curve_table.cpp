#include "reports/compare/curve_table.h"

#include "estimates/shares/interval_policy.h"
#include "reports/compare/retention_plots.h"
#include "reports/print/cells.h"

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

using estimates::SpellState;

Cell survivalCell(const RetentionCurve& curve, double year) {
  if (!curve.curve) return noFigure;
  const auto at = curve.survivalAt(year);
  if (base::percent(at.low) == base::percent(at.high)) return shareOf(at.low);
  return Range{at.low, at.high, {}, " to "};
}

std::string endsNote(const RetentionCurve& curve) {
  std::vector<std::string> parts;
  const auto add = [&](std::string_view what, std::size_t count) {
    if (count > 0) parts.push_back(std::string(what) + " " + std::to_string(count));
  };
  for (const auto state :
       {SpellState::failed, SpellState::whole, SpellState::cannotTell, SpellState::replaced,
        SpellState::restoredOver, SpellState::crowned, SpellState::extracted, SpellState::shed})
    add(state == SpellState::cannotTell ? "never assessed" : named(state), curve.ends.count(state));
  add("found failed after a report and not checked since", curve.reportedOpen);
  add("assessed after a report alone", curve.reportedOnly);
  auto words = "Of " + counted(curve.placements, "sealant", "sealants") + ": " +
               base::join(parts, ", ") + ".";
  if (curve.tooYoung > 0)
    words += " Left out: " + std::to_string(curve.tooYoung) +
             " placed too recently to have been looked at; no sealant was yet checked so soon "
             "after it was placed.";
  return words;
}

/// Whose sealants, and looks of which kind.
std::string cohortNote(const RetentionCurve& curve) {
  std::vector<std::string> kinds;
  for (const auto& [kind, count] : curve.kinds)
    kinds.push_back(named(kind) + " " + std::to_string(count));
  std::string words =
      "Placed from " + curve.firstPlaced->words() + " to " + curve.lastPlaced->words() + " at " +
      counted(curve.schools, "school", "schools") + "; checks: " + base::join(kinds, ", ") + ".";
  if (curve.schools > 1)
    words += " Where schools were checked at different ages, a step may come from a school "
             "and not from time.";
  kinds.clear();
  for (const auto kind :
       {followup::CheckKind::shortTermTriggered, followup::CheckKind::opportunistic})
    if (curve.kinds.contains(kind)) kinds.push_back(named(kind));
  if (!kinds.empty())
    words += " Not all were planned (" + base::join(kinds, ", ") +
             "): where a student was checked because something was wrong, the curve is too low "
             "there.";
  return words;
}

/// Of looks because a loss was reported, and what became of the losses that they found.
std::string reportsNote(const RetentionCurve& curve) {
  auto words = "Left out: " + counted(curve.reportedChecks, "check", "checks") +
               " made because a loss was reported. They come where sealants are said to be "
               "missing, and with them the curve would be too low.";
  if (curve.reportedDated > 0)
    words += " Found failed by them, and checked later for another reason: " +
             counted(curve.reportedDated, "sealant", "sealants") +
             ", counted as failed by that check.";
  if (curve.reportedOpen > 0)
    words += " Found failed by them, and not checked since for another reason: " +
             counted(curve.reportedOpen, "sealant", "sealants") +
             ", followed to the last check before.";
  return words;
}

/// Rounded outward: a check never lies where none is said to.
std::string lookBounds(const std::vector<double>& looks) {
  constexpr double tenths = 10;
  return "No check assessed a sealant before " +
         base::fixed(std::floor(tenths * looks.front()) / tenths, 1) + " years or after " +
         base::fixed(std::ceil(tenths * looks.back()) / tenths, 1) + ": no figure is given there.";
}

Cell bandCell(const CurveReading& at) {
  auto range = rangeOf(at.band);
  if (!at.isExactLimit) return range;
  return range.with(", exact limit, " +
                    counted(at.settled, "student checked then", "students checked then"));
}

/// What the band resamples, where there is one, and what an exact limit rests on.
void addBandNotes(Table& table, const RetentionCurve& curve) {
  using estimates::BandUnits;
  const auto has = [&](auto what) { return std::ranges::any_of(curve.readings, what); };
  if (has([](const auto& at) { return at.band && !at.isExactLimit; })) {
    if (curve.units == BandUnits::schools)
      table.notes.push_back("The band resamples schools." +
                            std::string(curve.schoolsChecked < estimates::fewClustersToRead
                                            ? " They are few: it is widened for that."
                                            : ""));
    else
      table.notes.push_back(
          "The band resamples students" +
          std::string(curve.isFewChildren ? "; with so few it is likely too narrow." : "."));
  }
  if (curve.units == BandUnits::tooFewSchools)
    table.notes.push_back("No band is given: how much schools differ hardly shows in " +
                          base::counted(curve.schoolsChecked, "school.", "schools."));
  if (has([](const auto& at) { return at.isExactLimit; }))
    table.notes.emplace_back(
        "Exact limit: all or none of the students checked then were alike, which is no certainty. "
        "It counts only students checked from that age until the next check that leaves it open, "
        "and no student for being found fully retained at a later one.");
}

} // namespace

Table curveTable(const RetentionCurve& usual, const RetentionCurve& worst,
                 const RetentionCurve& wholeOrPart) {
  Table table{"Retention over time",
              {numbers("Years"), shares("Fully retained, %"), ranges("95% band"),
               counts("Assessed then or later"), shares("Fully retained %, worst case"),
               shares("Fully or partially retained, %")}};
  if (!usual.curve) {
    if (usual.reportedOpen + usual.reportedOnly > 0)
      table.notes = {"No check has assessed a sealant yet, but for checks made because a loss was "
                     "reported. No curve rests on them alone."};
    else
      table.notes = {"No check has assessed a sealant yet."};
    return table;
  }
  for (const auto& at : usual.readings)
    table.rows.push_back({numberOf(at.year, 1), survivalCell(usual, at.year), bandCell(at),
                          at.followed, survivalCell(worst, at.year),
                          survivalCell(wholeOrPart, at.year)});
  const auto looks =
      "A sealant fails between the last check that found it fully retained and the "
      "first that did not; where two figures are given, the checks do not tell where "
      "between them the curve lies. " +
      lookBounds(usual.looks);
  table.notes = {endsNote(usual), looks, cohortNote(usual)};
  if (usual.reportedChecks > 0) table.notes.push_back(reportsNote(usual));
  if (usual.readings.empty())
    table.notes.emplace_back("None of the ages at which the curve is read lies between the first "
                             "check and the last, so no figure is given.");
  table.notes.emplace_back(
      "Crowned, extracted, exfoliated: counted as not yet failed when last seen "
      "fully retained; in the worst case as failed by then. A surface filled "
      "since, and a tooth resealed without a check that found the sealant fully "
      "retained, count as failed. A reseal starts over. Students who were not "
      "found are assumed to be like those who were.");
  addBandNotes(table, usual);
  if (usual.curve->has(estimates::SurvivalNote::notSettled))
    table.notes.emplace_back("The fit did not converge: the curve is approximate.");
  table.plot = curvePlot(usual, worst);
  return table;
}

} // namespace gk::reports
