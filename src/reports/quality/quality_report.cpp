#include "reports/quality/quality_report.h"

#include "reports/compare/comparison_table.h"
#include "reports/print/cells.h"
#include "reports/quality/light_plot.h"
#include "reports/quality/quality_logs.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

std::string signalWords(estimates::ChartSignal signal) {
  switch (signal) {
  case estimates::ChartSignal::none:
    return "";
  case estimates::ChartSignal::below:
    return "below";
  case estimates::ChartSignal::above:
    return "above";
  }
  base::fail("no such signal");
}

Cell ofBaseline(double reading, int baseline) {
  return baseline > 0 ? Cell(Share{reading / baseline, 0}) : Cell(noFigure);
}

Table lightsTable(const std::vector<LightChart>& lights) {
  Table table{"Curing lights against their own baseline",
              {texts("Light"), counts("Baseline"), counts("Readings"), dated("Latest"),
               numbers("mW/cm2"), shares("% of baseline"), texts("Grade"), dated("First signal")}};
  for (const auto& light : lights) {
    Cells cells{light.tag, light.baseline, light.dates.size()};
    if (light.dates.empty())
      cells.insert(cells.end(), {noFigure, noFigure, noFigure, noFigure});
    else
      cells.insert(cells.end(),
                   {light.dates.back(), numberOf(light.readings.back(), 0),
                    ofBaseline(light.readings.back(), light.baseline), light.grades.back()});
    // Only a signal needs more than the baseline's own readings.
    if (!light.chart)
      cells.emplace_back("too few readings");
    else if (const auto& signal = light.chart->firstSignal)
      cells.emplace_back(light.dates[baselineReadings + *signal]);
    else
      cells.emplace_back("none");
    table.rows.push_back(std::move(cells));
  }
  table.notes = {"A light is compared with itself on one meter; a reading is not a certified "
                 "measurement. Grade: amber from 10% below the baseline, red from 20% or "
                 "under the manufacturer's minimum (program setting; manufacturer's "
                 "instructions take precedence).",
                 "Signal: the weighted average of the readings is outside its limits around "
                 "the mean of the first five, limits that allow for the error of that mean. "
                 "Of 100 steady lights, looked at after each reading, about 4 give a false alarm "
                 "within 50 readings where the meter repeats within 3%, and about 13 where "
                 "within 5%. After a new lamp or battery, enter the light's baseline again: the "
                 "chart then starts over."};
  return table;
}

struct Care {
  int teeth = 0;
  int wetTeeth = 0;
  int wetEvents = 0;
  int reEtched = 0;
  int cutShort = 0;
  int notFrosty = 0;
};

Cells careRow(const std::string& label, const Care& care) {
  const auto perHundred = [&](int count) { return numberPer(100.0 * count, care.teeth, 1); };
  return {label,          care.teeth,    care.wetTeeth, perHundred(care.wetTeeth),
          care.wetEvents, care.reEtched, care.cutShort, perHundred(care.cutShort),
          care.notFrosty};
}

Table careTable(const TermView& view) {
  std::map<chairside::Isolation, Care> byMethod;
  Care total;
  for (const auto& [child, rows] : view.placements.all()) {
    for (const auto* row : rows) {
      const auto& one = row->value;
      for (auto* care : {&byMethod[one.isolation], &total}) {
        ++care->teeth;
        care->wetTeeth += one.wetEvents > 0 ? 1 : 0;
        care->wetEvents += one.wetEvents;
        care->reEtched += one.etches > 1 ? 1 : 0;
        care->cutShort += one.interruptedCures > 0 ? 1 : 0;
        care->notFrosty += one.attempt == chairside::Attempt::complete && !one.frosty ? 1 : 0;
      }
    }
  }
  Table table{"Isolation, this term's teeth",
              {texts("Isolation"), counts("Teeth"), counts("Contaminated"),
               numbers("Contaminated per 100"), counts("Events"), counts("Re-etched"),
               counts("Cure cut short"), numbers("Per 100"), counts("Frosty not checked")},
              {"Every tooth that was started, also those not finished. Saliva between etch "
               "and cure is a main cause of sealant loss.",
               "A cure cut short does not count and is repeated in full."}};
  for (const auto& [method, care] : byMethod)
    table.rows.push_back(careRow(named(method), care));
  table.rows.push_back(careRow("Total", total));
  return table;
}

} // namespace

Table lightTable(const LightChart& light) {
  Table table{
      "Light " + light.tag + ": readings, mW/cm²",
      {dated("Date"), numbers("Reading"), shares("% of baseline"), numbers("Average"),
       numbers("Low limit"), numbers("High limit"), texts("Grade"), texts("Signal")},
      {"Baseline as entered " + number(light.baseline) +
       (light.makersLeast > 0 ? ", manufacturer's minimum " + number(light.makersLeast) : "") +
       "."}};
  for (std::size_t i = 0; i < std::min(baselineReadings, light.dates.size()); ++i)
    table.rows.push_back({light.dates[i], numberOf(light.readings[i], 0),
                          ofBaseline(light.readings[i], light.baseline), noFigure, noFigure,
                          noFigure, light.grades[i], "baseline"});
  if (!light.chart) return table;
  for (std::size_t i = baselineReadings; i < light.dates.size(); ++i) {
    const auto& point = light.chart->points[i - baselineReadings];
    table.rows.push_back({light.dates[i], numberOf(point.reading, 0),
                          ofBaseline(point.reading, light.baseline), numberOf(point.average, 0),
                          numberOf(point.low, 0), numberOf(point.high, 0), light.grades[i],
                          signalWords(point.signal)});
  }
  table.notes.push_back("The chart is compared with the mean of the first " +
                        base::counted(baselineReadings, "reading", "readings") + ", " +
                        base::fixed(light.mean, 0) + ".");
  if (light.notComparable > 0)
    table.notes.push_back("Not included, on another meter or with a different sleeve: " +
                          number(light.notComparable) + ".");
  table.plot = lightPlot(light);
  return table;
}

std::vector<Table> qualityReport(const TermView& view, const ComparisonOptions& options) {
  const auto lights = lightCharts(view.records);
  std::vector<Table> tables{lightsTable(lights),   careTable(view),
                            wetTable(view),        exceptionsTable(view),
                            sterilizerTable(view), licenseTable(view.records)};
  for (const auto& light : lights)
    if (!light.dates.empty()) tables.push_back(lightTable(light));
  const RetentionFacts facts(view, options.retention);
  constexpr std::array factors{Factor::light, Factor::lot, Factor::placedBy};
  for (const auto& one : compareFactors(facts, factors, {}, options))
    tables.push_back(comparisonTable(one));
  return tables;
}

} // namespace gk::reports
