#include "reports/term/prevention_report.h"

#include "reports/decay/tornado_plot.h"
#include "reports/decay/true_sentences.h"
#include "reports/print/cells.h"

namespace gk::reports {

namespace {

std::string whole(double value) {
  return base::fixed(value, 0);
}

Cells scenarioRow(const std::string& label, const estimates::AvertedInputs& in,
                  const estimates::AvertedEstimate& out) {
  return {label,
          shareOf(in.attackRate),
          shareOf(in.retentionYearOne),
          numberOf(in.efficacy, 2),
          numberOf(in.relativeRiskAfterLoss, 2),
          numberOf(out.averted, 0),
          out.interval ? Cell(Range{out.interval->low, out.interval->high, 0}) : noFigure,
          shareOf(out.preventedFraction)};
}

/// Of what the 95 % range is, where one stands.
std::string rangeWordsOf(const ScenarioReport& report) {
  if (!report.estimate->interval) return "";
  const bool hasRate = report.inputs->attackRateSe.has_value();
  const bool hasRetention = report.inputs->retentionEffectiveN.has_value();
  return std::string(" The 95% CI covers the sampling error of ") +
         (hasRate && hasRetention ? "attack rate and retention"
          : hasRate               ? "the attack rate alone"
                                  : "retention alone") +
         ".";
}

Table scenarioTable(const ScenarioReport& report, const WhatIf& whatIf) {
  const auto& scenarios = *report.scenarios;
  Table table{"Cavities averted in " + counted(report.inputs->years, "year", "years") + ", " +
                  whole(report.inputs->sealants) + " sealed molars",
              {texts("Scenario"), shares("Attack rate %"), shares("Protected at one year %"),
               numbers("Protection"), numbers("Risk after loss"), numbers("Cavities averted"),
               ranges("95% CI"), shares("Decay prevented, %")}};
  table.rows = {scenarioRow("Low", scenarios.lowInputs, scenarios.low),
                scenarioRow(isAssumed(whatIf) ? "With your figures" : "As measured", *report.inputs,
                            *report.estimate),
                scenarioRow("High", scenarios.highInputs, scenarios.high)};
  table.rows.front()[6] = noFigure; // scenarios have no range of their own
  table.rows.back()[6] = noFigure;
  table.notes = {whatIf.retentionYearOne
                     ? "Protected at one year: your figure, for the share of teeth whose sealant, "
                       "repairs and reseals included, is fully retained a year later."
                     : "Protected at one year: the share of teeth whose sealant, repairs and "
                       "reseals included, was fully retained at the one-year check, and not the "
                       "share of first sealants.",
                 "A model estimate; after the first year, retention falls by 0.05 of it a "
                 "year, a planning value. It applies to programs, never to one student.",
                 endsWords(scenarios, *report.inputs) + rangeWordsOf(report)};
  if (auto words = reviewWords(*report.inputs); !words.empty())
    table.notes.push_back(std::move(words));
  return table;
}

Table tornadoTable(const ScenarioReport& report, const WhatIf& whatIf) {
  Table table{
      "What each input alone would change",
      {texts("Input"), numbers("At its low end"), numbers("At its high end"), numbers("Swing")},
      {"Cavities averted with this input moved and the others " + baseWords(whatIf) +
       "; longest first."}};
  for (const auto& bar : report.scenarios->bars)
    table.rows.push_back({inputWords(bar.input), numberOf(bar.atLow, 0), numberOf(bar.atHigh, 0),
                          numberOf(bar.swing(), 0)});
  table.plot = tornadoPlot(report, baseWords(whatIf));
  return table;
}

Table moneyTable(const estimates::MoneyEstimate& money, const WhatIf& whatIf) {
  Table table{"Money, with the program's own amounts", {texts("Figure"), numbers("Amount")}};
  table.rows = {{"Cost of the program", numberOf(*whatIf.programCost, 2)},
                {"Cost of treating one cavity", numberOf(*whatIf.costPerCavity, 2)},
                {"Treatment cost avoided, present value", numberOf(money.savings, 2)},
                {"Net cost (below 0 it saves)", numberOf(money.netCost, 2)},
                {"Cost per cavity averted", numberOf(money.costPerAverted, 2)},
                {"Break-even cost per cavity", numberOf(money.breakEvenCost, 2)}};
  table.notes = {"Savings are discounted to now from the end of each year at " +
                 base::percent(whatIf.discountRate) +
                 "% a year. Treatment cost is taken as the same in each year."};
  return table;
}

/// Which end of the scenarios is that of the teeth not looked at, and not of the CI.
std::string uncheckedWords(const ScenarioReport& report,
                           const std::optional<estimates::Interval>& bounds, const WhatIf& whatIf) {
  if (whatIf.retentionYearOne || !bounds) return {};
  const bool isLow = report.scenarios->lowInputs.retentionYearOne == bounds->low;
  const bool isHigh = report.scenarios->highInputs.retentionYearOne == bounds->high;
  if (!isLow && !isHigh) return {};
  return std::string("For teeth protected, ") +
         (isLow && isHigh ? "low assumes that all sealants not assessed failed, high that all held."
          : isLow         ? "low assumes that all sealants not assessed failed."
                          : "high assumes that all sealants not assessed held.");
}

/// The term's own figure is by that rate, so that the two differ.
std::string ownRateWords(const TermTotals& totals) {
  const auto& own = totals.attackRate.seconds;
  if (!own) return "";
  return ", though their own is " + base::percent(own->annual) +
         "% a year, which the term report uses";
}

} // namespace

std::vector<Table> preventionReport(const TermTotals& totals, const WhatIf& whatIf) {
  const int seconds = whatIf.firstMolarsOnly ? 0 : totals.total.secondMolars;
  const auto report = scenarios(totals.total.firstMolars + seconds, totals.attackRate,
                                totals.retention.total.protected95, whatIf,
                                protectedBounds(totals.retention.total));
  if (!report.scenarios)
    return {
        {"Cavities averted", {texts("Figure"), numbers("Estimate")}, {}, {report.whyNot + "."}}};
  std::vector<Table> tables{scenarioTable(report, whatIf), tornadoTable(report, whatIf)};
  if (seconds > 0)
    tables.front().notes.push_back(
        "Holds " + counted(seconds, "second molar", "second molars") +
        (whatIf.attackRate ? " at your attack rate"
                           : " at the first molars' attack rate" + ownRateWords(totals)) +
        "; first molars can be shown alone.");
  if (auto words = uncheckedWords(report, protectedBounds(totals.retention.total), whatIf);
      !words.empty())
    tables.front().notes.push_back(std::move(words));
  if (report.money) tables.push_back(moneyTable(*report.money, whatIf));
  return tables;
}

} // namespace gk::reports
