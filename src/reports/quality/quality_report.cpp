#include "reports/quality/quality_report.h"

#include "reports/compare/comparison_table.h"
#include "reports/print/cells.h"
#include "reports/quality/light_plot.h"
#include "reports/quality/quality_logs.h"
#include "reports/records/term_view.h"

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

std::string ofBaseline(double reading, int baseline) {
  return baseline > 0 ? base::percent(reading, baseline, 0) : nothing;
}

Table lightsTable(const std::vector<LightChart>& lights) {
  Table table{"Curing lights against their own baseline",
              {{"Light"},
               right("Baseline"),
               right("Readings"),
               dated("Latest"),
               right("mW/cm2"),
               right("% of baseline"),
               {"Grade"},
               dated("First signal")},
              {},
              {}};
  for (const auto& light : lights) {
    Cells cells{light.tag, number(light.baseline), number(static_cast<int>(light.dates.size()))};
    if (light.dates.empty() || !light.chart) {
      cells.insert(cells.end(), {nothing, nothing, nothing, nothing, "too few readings"});
    } else {
      const double latest = light.chart->points.back().reading;
      const auto& signal = light.chart->firstSignal;
      cells.insert(cells.end(), {light.dates.back().iso(), base::fixed(latest, 0),
                                 ofBaseline(latest, light.baseline), named(light.grades.back()),
                                 signal ? light.dates[baselineReadings + *signal].iso() : "none"});
    }
    table.rows.push_back(std::move(cells));
  }
  table.notes = {"A light is compared with itself on one meter; a reading is not a certified "
                 "measurement. Grade: amber from 10% below the baseline, red from 20% or "
                 "under the manufacturer's minimum (program setting; manufacturer's "
                 "instructions take precedence).",
                 "Signal: the weighted average of the readings is outside its limits around "
                 "the mean of the first five, limits that allow for the error of that mean. "
                 "Of 100 steady lights, at most about 5 give a false alarm within 50 readings, "
                 "where the meter repeats within 5%. After a new lamp or battery, enter the "
                 "light's baseline again: the chart then "
                 "starts over."};
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
  const auto perHundred = [&](int count) {
    return care.teeth > 0 ? base::percent(count, care.teeth, 1) : std::string(nothing);
  };
  return {label,
          number(care.teeth),
          number(care.wetTeeth),
          perHundred(care.wetTeeth),
          number(care.wetEvents),
          number(care.reEtched),
          number(care.cutShort),
          perHundred(care.cutShort),
          number(care.notFrosty)};
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
              {{"Isolation"},
               right("Teeth"),
               right("Contaminated"),
               right("Contaminated per 100"),
               right("Events"),
               right("Re-etched"),
               right("Cure cut short"),
               right("Per 100"),
               right("Frosty not checked")},
              {},
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
      "Light " + light.tag + ": readings, mW/cm2",
      {dated("Date"),
       right("Reading"),
       right("% of baseline"),
       right("Average"),
       right("Low limit"),
       right("High limit"),
       {"Grade"},
       {"Signal"}},
      {},
      {"Baseline as entered " + number(light.baseline) +
       (light.makersLeast > 0 ? ", manufacturer's minimum " + number(light.makersLeast) : "") +
       "."}};
  if (!light.chart) return table;
  for (std::size_t i = 0; i < baselineReadings; ++i)
    table.rows.push_back({light.dates[i].iso(), nothing, nothing, nothing, nothing, nothing,
                          named(light.grades[i]), "baseline"});
  for (std::size_t i = baselineReadings; i < light.dates.size(); ++i) {
    const auto& point = light.chart->points[i - baselineReadings];
    table.rows.push_back({light.dates[i].iso(), base::fixed(point.reading, 0),
                          ofBaseline(point.reading, light.baseline), base::fixed(point.average, 0),
                          base::fixed(point.low, 0), base::fixed(point.high, 0),
                          named(light.grades[i]), signalWords(point.signal)});
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

std::vector<Table> qualityReport(const TermRecords& records, const ComparisonOptions& options) {
  const auto lights = lightCharts(records);
  std::vector<Table> tables{lightsTable(lights),      careTable(TermView(records)),
                            wetTable(records),        exceptionsTable(records),
                            sterilizerTable(records), licenceTable(records)};
  for (const auto& light : lights)
    if (light.chart) tables.push_back(lightTable(light));
  const RetentionFacts facts(records, options.retention);
  constexpr std::array factors{Factor::light, Factor::lot, Factor::placedBy};
  for (const auto& one : compareFactors(facts, factors, {}, options))
    tables.push_back(comparisonTable(one));
  return tables;
}

} // namespace gk::reports
