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
          share(in.attackRate),
          share(in.retentionYearOne),
          base::fixed(in.efficacy, 2),
          base::fixed(in.relativeRiskAfterLoss, 2),
          whole(out.averted),
          out.interval ? whole(out.interval->low) + "-" + whole(out.interval->high) : nothing,
          share(out.preventedFraction)};
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
              {{"Scenario"},
               right("Attack rate %"),
               right("Protected at one year %"),
               right("Protection"),
               right("Risk after loss"),
               right("Cavities averted"),
               right("95% CI"),
               right("Decay prevented, %")},
              {},
              {}};
  table.rows = {scenarioRow("Low", scenarios.lowInputs, scenarios.low),
                scenarioRow(isAssumed(whatIf) ? "With your figures" : "As measured", *report.inputs,
                            *report.estimate),
                scenarioRow("High", scenarios.highInputs, scenarios.high)};
  table.rows.front()[6] = nothing; // scenarios have no range of their own
  table.rows.back()[6] = nothing;
  table.notes = {"Protected at one year: the share of teeth whose sealant, repairs and "
                 "reseals included, was fully retained at the one-year check, and not the "
                 "share of first sealants.",
                 "A model estimate; after the first year, retention falls by 0.05 of it a "
                 "year, a planning value. It applies to programs, never to one child.",
                 endsWords(scenarios, *report.inputs) + rangeWordsOf(report)};
  if (auto words = reviewWords(*report.inputs); !words.empty())
    table.notes.push_back(std::move(words));
  return table;
}

Table tornadoTable(const ScenarioReport& report, const WhatIf& whatIf) {
  Table table{"What each input alone would change",
              {{"Input"}, right("At its low end"), right("At its high end"), right("Swing")},
              {},
              {"Cavities averted with this input moved and the others " + baseWords(whatIf) +
               "; longest first."}};
  for (const auto& bar : report.scenarios->bars)
    table.rows.push_back(
        {inputWords(bar.input), whole(bar.atLow), whole(bar.atHigh), whole(bar.swing())});
  table.plot = tornadoPlot(report, baseWords(whatIf));
  return table;
}

Table moneyTable(const estimates::MoneyEstimate& money, const WhatIf& whatIf) {
  Table table{"Money, with the program's own amounts", {{"Figure"}, right("Amount")}, {}, {}};
  table.rows = {{"Cost of the program", base::fixed(*whatIf.programCost, 2)},
                {"Cost of treating one cavity", base::fixed(*whatIf.costPerCavity, 2)},
                {"Treatment cost avoided, present value", base::fixed(money.savings, 2)},
                {"Net cost (below 0 it saves)", base::fixed(money.netCost, 2)},
                {"Cost per cavity averted", number(money.costPerAverted, 2)},
                {"Break-even cost per cavity", number(money.breakEvenCost, 2)}};
  table.notes = {"Savings are discounted to now from the end of each year at " +
                 base::percent(whatIf.discountRate) +
                 "% a year. Treatment cost is taken as the same in each year."};
  return table;
}

} // namespace

std::vector<Table> preventionReport(const TermTotals& totals, const WhatIf& whatIf) {
  const int seconds = whatIf.firstMolarsOnly ? 0 : totals.total.secondMolars;
  const auto report = scenarios(totals.total.firstMolars + seconds, totals.attackRate,
                                totals.retention.total.protected95, whatIf,
                                protectedBounds(totals.retention.total));
  if (!report.scenarios)
    return {{"Cavities averted", {{"Figure"}, right("Estimate")}, {}, {report.whyNot + "."}}};
  std::vector<Table> tables{scenarioTable(report, whatIf), tornadoTable(report, whatIf)};
  if (seconds > 0)
    tables.front().notes.push_back(
        "Holds " + counted(seconds, "second molar", "second molars") +
        " at the first molars' attack rate; first molars can be shown alone.");
  if (!whatIf.retentionYearOne && protectedBounds(totals.retention.total))
    tables.front().notes.emplace_back(
        "Low and high for teeth protected assume that all unchecked sealants failed, "
        "or that all held.");
  if (report.money) tables.push_back(moneyTable(*report.money, whatIf));
  return tables;
}

} // namespace gk::reports
