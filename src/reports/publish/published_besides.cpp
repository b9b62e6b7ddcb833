#include "reports/publish/published_besides.h"

#include "reports/publish/publication.h"

namespace gk::reports {

namespace {

using Checks = Publication<CheckFigure>;

Table shortTermTable(const Checks& checks, const LookAges& ages) {
  using enum CheckFigure;
  return checks.table("Short-term checks, of all schools together", "Schools",
                      {shownCounts("Students", "children", childrenFound),
                       shownCounts("Examined", "examined", examined),
                       shownCounts("Assessable", "assessable", assessable),
                       shownCounts("Fully retained", "whole", whole),
                       shownCounts("Partially retained", "part", part),
                       shownCounts("Missing", "lost", lost),
                       shownCounts("Not assessable", "cannot_assess", cannotAssess),
                       shownRates("Fully retained, %", "whole_share", whole, assessable)},
                      "Made on these dates. " + lookWords(ages) +
                          " Sealants found missing here count as missing in the one-year figures "
                          "too, where the student is found then.");
}

/// One for each question that anybody answered.
std::vector<Table> studentTables(const Publication<StudentFigure>& students) {
  std::vector<Table> tables;
  const ShownRow<StudentFigure> row(students.counts, students.shown, 0, students.rule);
  const auto& places = students.counts.grid.front();
  for (const auto& question : studentQuestions()) {
    const auto valueOf = [&](StudentFigure figure) {
      return students.counts.system.cells.at(places.at(figure)).value;
    };
    if (valueOf(question.figures.back()) == valueOf(StudentFigure::screened)) continue;
    Table table{std::string("Screened students by ") + question.by,
                {{question.heading}, counts("Students", "children"), shares("% of screened")}};
    table.key = keyOf(std::string("screened_children_by_") + question.by);
    for (const auto figure : question.figures)
      table.rows.push_back(
          {wordsOf(figure), row.count(figure), row.rate(figure, StudentFigure::screened)});
    table.rows.push_back({"Total", row.count(StudentFigure::screened), ""});
    tables.push_back(std::move(table));
  }
  if (!tables.empty()) {
    tables.back().notes.emplace_back(
        "As the forms said, of all schools together. Race and ethnicity: the "
        "categories of OMB Statistical Policy Directive No. 15 (2024); people "
        "reporting more than one group are counted separately.");
    students.addFootnote(tables.back());
  }
  return tables;
}

} // namespace

void addShortTerm(Published& published, const TermTotals& totals, const SuppressionRule& rule,
                  std::span<const Release> earlier) {
  if (totals.shortTerm.examined == 0) return;
  const auto early =
      publication(shortTermCounts(totals, earlier), rule, earlier, &Release::shortTerm);
  if (early.isLeaky()) return;
  published.shortTerm =
      shortTermTable(early, {totals.shortTerm.firstMonth, totals.shortTerm.lastMonth});
  published.release.shortTerm = early.released();
}

void addStudents(Published& published, const TermTotals& totals, const SuppressionRule& rule,
                 std::span<const Release> earlier) {
  if (totals.total.screened == 0) return;
  const auto students =
      publication(studentSystem(totals, earlier), rule, earlier, &Release::students);
  if (students.isLeaky()) return;
  published.students = studentTables(students);
  published.release.students = students.released();
}

} // namespace gk::reports
