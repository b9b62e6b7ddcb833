#include "reports/funder/funder_report.h"

#include "base/contract.h"
#include "reports/day/incident_counts.h"
#include "reports/decay/prevention.h"
#include "reports/funder/effort_report.h"
#include "reports/funder/funder_figures.h"
#include "reports/print/cells.h"
#include "reports/publish/published.h"

namespace gk::reports {

namespace {

/// Of every sort together: one sort of one school is soon one child.
Cell incidents(const TermRecords& records, const SuppressionRule& rule) {
  int count = 0;
  for (const auto& one : incidentCounts(records.incidents))
    count += one.count;
  const bool isSmall = count > 0 && count < rule.threshold();
  return shownCount(count, isSmall ? Showing::fewer : Showing::number, rule);
}

Table coverTable(const TermRecords& records, const TermTotals& totals, const Cell& screened,
                 const SuppressionRule& rule) {
  const auto openly = openlyWords(rule);
  return {"Report to funder or state: " + totals.term + ", " + periodWords(totals),
          {texts("What"), texts("Which")},
          {{"Schools; clinic days held",
            number(static_cast<int>(totals.schools.size())) + "; " + number(totals.total.days)},
           // Students a day times days is the number of students.
           {"Students screened a day",
            screened.isWithheld() ? Withheld{} : numberOf(totals.total.childrenPerDay(), 1)},
           {"Small numbers", "counts of 1 to " + number(rule.threshold() - 1) +
                                 " are suppressed, and what would reveal them" +
                                 (openly.empty() ? "" : "." + openly)},
           {"Incidents recorded", incidents(records, rule)},
           {"Material lots set aside", lotsSetAside(records)}},
          {}};
}

Table targetTable(const TermTotals& totals, const std::vector<Table>& published) {
  Table table{"Benchmarks and actual",
              {texts("Measure"), shares("Benchmark, %"), shares("Actual, %"), texts("Met")},
              {"Benchmarks are the program's own."}};
  const auto add = [&](const std::string& what, std::optional<double> target, const Cell& actual) {
    if (target) table.rows.push_back({what, Share{*target, 0}, actual, reached(*target, actual)});
  };
  add("Consented of enrolled", totals.targets.consented, totalOf(published[0], "consented_share"));
  add("Screened of consented", totals.targets.screened, totalOf(published[0], "screened_share"));
  add(wereAllScreened(published[1]) ? "Sealed of those in need"
                                    : "Screened and sealed of those in need",
      totals.targets.sealed, totalOf(published[1], "sealed_share"));
  const auto retained = totals.targets.retained;
  if (!retained) return table;
  add("Fully retained of assessable at one year", retained, totalOf(published[3], "whole_share"));
  auto& row = table.rows.back();
  row.back() = reachedByCi(*retained, row[2], totals.retention.total);
  if (row.back().text() == "unsure") {
    const auto& rate = totals.retention.total.whole95;
    table.notes.emplace_back(rate && printedRange(*rate)
                                 ? "Unsure: the 95% CI holds the benchmark."
                                 : "Unsure: there is no 95% CI to hold against the benchmark.");
  }
  return table;
}

Table sparedTable(const TermTotals& totals, const std::vector<Table>& published) {
  Table table{"Cavities averted, estimated", {texts("Figure"), ranges("Estimate")}};
  for (const auto& [figure, estimate] : sparedFigures(totals, !hidesIn(published[1].rows.back()),
                                                      !hidesIn(published[3].rows.back())))
    table.rows.push_back({figure, estimate});
  const auto* first = table.rows.front().at(1).as<Estimate>();
  const bool hasRange = first && first->range;
  if (totals.averted.firstsAlone && !hidesIn(published[1].rows.back()))
    table.rows.push_back({"First molars only, as second molars have no rate of their own",
                          avertedCell(*totals.averted.firstsAlone)});
  table.notes = {
      "Methods and limits. Consented: a form for these dates that says yes, or "
      "screened on them. Screened is a look by a licensed person at school, not a "
      "dental examination, no x-rays. Sealed: at least one complete sealant by "
      "this program; teeth are counted once. Retention: found students only, first "
      "placements, fully retained of those assessable at " +
          number(totals.window.fromMonths) + " to " + number(totals.window.untilMonths) +
          " months, by placing school; those not found may have kept fewer or more.",
      "Cavities averted is a model estimate: it applies to programs, never to one student" +
          std::string(hasRange ? "; its CI covers the sampling error of attack rate and "
                                 "retention, not doubt about the model."
                               : ".")};
  return table;
}

} // namespace

std::vector<Table> funderAnnex(const TermView& view, const TermTotals& totals,
                               const Published& published, const SuppressionRule& rule) {
  const auto& tables = published.tables;
  const auto schools = efforts(view);
  std::vector<Table> out{coverTable(view.records, totals, totalOf(tables[0], "screened"), rule)};
  if (auto meals = mealsTable(schools)) out.push_back(*std::move(meals));
  out.push_back(tables[0]);
  if (published.byGrade)
    out.push_back(*published.byGrade);
  else
    out.back().notes.emplace_back("By grade is omitted: it would reveal what is suppressed here.");
  out.insert(out.end(), {tables[2], tables[1], tables[3]});
  if (published.shortTerm) out.push_back(*published.shortTerm);
  base::require(published.referrals.has_value(), "what became of referrals was counted");
  out.push_back(*published.referrals);
  out.insert(out.end(), published.students.begin(), published.students.end());
  if (published.students.empty())
    out.back().notes.emplace_back(
        "Who the students are is omitted: it was not stated, or a total suppressed "
        "elsewhere could be worked out from it.");
  if (auto effort = publishedEffort(schools, rule)) out.push_back(*std::move(effort));
  if (totals.targets.isAny()) out.push_back(targetTable(totals, tables));
  out.push_back(sparedTable(totals, tables));
  return out;
}

} // namespace gk::reports
