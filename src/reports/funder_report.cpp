#include "reports/funder_report.h"

#include "reports/cells.h"
#include "reports/effort_report.h"
#include "reports/funder_figures.h"
#include "reports/funder_referrals.h"
#include "reports/lookup.h"
#include "reports/published.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

std::map<std::string, int> pupilsByGrade(const TermRecords& records) {
  auto ofTerm = records.enrolments;
  std::erase_if(ofTerm, [&](const auto& row) { return row.value.term != records.id; });
  const auto last =
      newestOfEach(ofTerm, [](const auto& one) { return std::pair(one.school, one.grade); });
  std::map<std::string, int> sums;
  for (const auto& [key, row] : last)
    sums[key.second] += row->value.pupils;
  return sums;
}

/// The same totals with grades in the place of schools.
TermTotals byGrade(const TermRecords& records, TermTotals totals) {
  const Lookup<roster::Child> children(records.children);
  std::map<std::string, std::vector<Participation>> shares;
  for (const auto& share : participationByChild(records))
    if (const auto* child = children.find(share.child))
      shares[child->grade].push_back(share.counts);
  const auto pupils = pupilsByGrade(records);
  for (const auto& [grade, count] : pupils)
    shares.try_emplace(grade);
  std::vector<std::pair<int, Participation>> grades;
  bool allKnown = true;
  for (auto& [grade, counts] : shares) {
    for (auto& one : counts)
      one.enrolled = 0;
    auto sum = sumOf(counts);
    const auto enrolled = pupils.find(grade);
    const bool isKnown = enrolled != pupils.end() && enrolled->second >= sum.formsBack &&
                         enrolled->second >= sum.consented;
    sum.enrolled = isKnown ? std::optional(enrolled->second) : std::nullopt;
    allKnown = allKnown && isKnown;
    sum.school = "Grade " + grade;
    grades.emplace_back(roster::gradeNumber(grade).value_or(-1), std::move(sum));
  }
  std::ranges::sort(grades, {}, [](const auto& one) { return one.first; });
  totals.schools.clear();
  for (auto& [order, sum] : grades) {
    if (!allKnown) sum.enrolled.reset();
    totals.schools.push_back(std::move(sum));
  }
  if (!allKnown) totals.total.enrolled.reset();
  return totals;
}

Table coverTable(const TermRecords& records, const TermTotals& totals,
                 const SuppressionRule& rule) {
  return {"Report to funder or state: " + totals.term + ", " + periodWords(totals),
          {{"What"}, {"Which"}},
          {{"Schools; clinic days held",
            number(static_cast<int>(totals.schools.size())) + "; " + number(totals.total.days)},
           {"Small numbers", "counts of 1 to " + number(rule.threshold() - 1) +
                                 " are hidden, and what would give them away"},
           {"Material lots set aside", number(lotsSetAside(records))}},
          {}};
}

/// Grades beside schools: what one table hides must not be readable in the other, so that both are
/// shown only where neither hides a total.
std::optional<Table> gradeTable(const TermRecords& records, const TermTotals& totals,
                                const SuppressionRule& rule, const Table& bySchool) {
  if (hidesIn(bySchool.rows.back())) return std::nullopt;
  auto table = publish(byGrade(records, totals), rule).tables.front();
  if (hidesIn(table.rows.back())) return std::nullopt;
  table.title = "Participation by grade";
  table.columns.front().heading = "Grade";
  table.notes = {"Grade as it is now, the child's own and not the room's."};
  return table;
}

Table targetTable(const TermTotals& totals, const std::vector<Table>& published) {
  Table table{"Targets against actual",
              {{"Measure"}, right("Reference line, %"), right("Actual, %"), {"Reached"}},
              {},
              {"Reference lines are published state guidance unless the program set its own; they "
               "speak of programs."}};
  const auto add = [&](const std::string& what, double target, const std::string& actual) {
    table.rows.push_back({what, base::fixed(100 * target, 0), actual, reached(target, actual)});
  };
  add("Consented of enrolled", totals.targets.consented, totalUnder(published[0], "% of enrolled"));
  add("Screened of consented", totals.targets.screened, totalUnder(published[0], "% of consented"));
  add("Sealed of those in need", totals.targets.sealed, totalUnder(published[1], "% of needing"));
  add("Whole of assessable at one year", totals.targets.retained,
      totalUnder(published[3], "Whole %"));
  return table;
}

Table sparedTable(const TermTotals& totals, bool teethAreShown) {
  Table table{"Decay spared, estimated", {{"Figure"}, right("Estimate")}, {}, {}};
  for (const auto& [figure, estimate] : sparedFigures(totals, teethAreShown))
    table.rows.push_back({figure, estimate});
  table.notes = {
      "Methods and limits. Consented: a form of this term that says yes, or screened in it. "
      "Screened is a look by a licensed person at school, not a dental examination, no x-rays. "
      "Sealed: at least one complete sealant by this program; teeth are counted once. Retention: "
      "found children only, first placements, whole of those that could be judged at " +
          number(totals.window.fromMonths) + " to " + number(totals.window.untilMonths) +
          " months, by placing school; those not found may have kept fewer or more.",
      "Decay spared is a model after Griffin, Jones and Crespin 2014: it speaks of programs, never "
      "of one child; its range holds the sampling error of attack rate and retention, not doubt "
      "about the model."};
  return table;
}

} // namespace

std::vector<Table> funderAnnex(const TermRecords& records, const TermTotals& totals,
                               const Published& published, const SuppressionRule& rule,
                               base::Date today) {
  const auto& tables = published.tables;
  const auto schools = efforts(records);
  std::vector<Table> out{coverTable(records, totals, rule)};
  if (auto meals = mealsTable(schools)) out.push_back(*std::move(meals));
  out.push_back(tables[0]);
  if (auto grades = gradeTable(records, totals, rule, tables[0]))
    out.push_back(*std::move(grades));
  else
    out.back().notes.emplace_back(
        "By grade is left out: with a total hidden, one table would give the other away.");
  out.insert(out.end(), {tables[2], tables[1], tables[3]});
  if (published.shortTerm) out.push_back(*published.shortTerm);
  out.push_back(publishedReferrals(records, rule, today, !hidesIn(tables[2].rows.back())));
  out.insert(out.end(), published.pupils.begin(), published.pupils.end());
  if (published.pupils.empty())
    out.back().notes.emplace_back("Who the children are is left out: nobody said, or a total "
                                  "hidden elsewhere could be worked out from it.");
  if (auto effort = publishedEffort(schools, rule)) out.push_back(*std::move(effort));
  out.push_back(targetTable(totals, tables));
  out.push_back(sparedTable(totals, !hidesIn(tables[1].rows.back())));
  return out;
}

} // namespace gk::reports
