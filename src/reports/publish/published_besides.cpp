#include "reports/publish/published_besides.h"

#include "reports/publish/publication.h"

namespace gk::reports {

namespace {

using Checks = Publication<CheckFigure>;

Table shortTermTable(const Checks& checks) {
  using enum CheckFigure;
  return checks.table("Short-term checks, of all schools together", "Schools",
                      {shownCounts("Children", "children", childrenFound),
                       shownCounts("Examined", "examined", examined),
                       shownCounts("Assessable", "assessable", assessable),
                       shownCounts("Fully retained", "whole", whole),
                       shownCounts("Partially retained", "part", part),
                       shownCounts("Missing", "lost", lost),
                       shownCounts("Not assessable", "cannot_assess", cannotAssess),
                       shownRates("Fully retained, %", "whole_share", whole, assessable)},
                      "Made this term, within two months of placement; they never enter the "
                      "one-year figures.");
}

/// One for each question that anybody answered.
std::vector<Table> pupilTables(const Publication<PupilFigure>& pupils) {
  std::vector<Table> tables;
  const ShownRow<PupilFigure> row(pupils.counts, pupils.shown, 0, pupils.rule);
  const auto& places = pupils.counts.grid.front();
  for (const auto& question : pupilQuestions()) {
    const auto valueOf = [&](PupilFigure figure) {
      return pupils.counts.system.cells.at(places.at(figure)).value;
    };
    if (valueOf(question.figures.back()) == valueOf(PupilFigure::screened)) continue;
    Table table{std::string("Screened children by ") + question.by,
                {{question.heading}, counts("Children"), shares("% of screened")}};
    for (const auto figure : question.figures)
      table.rows.push_back(
          {wordsOf(figure), row.count(figure), row.rate(figure, PupilFigure::screened)});
    table.rows.push_back({"Total", row.count(PupilFigure::screened), ""});
    tables.push_back(std::move(table));
  }
  if (!tables.empty()) {
    tables.back().notes.emplace_back(
        "As the forms said, of all schools together. Race and ethnicity: the "
        "categories of OMB Statistical Policy Directive No. 15 (2024); people "
        "reporting more than one group are counted separately.");
    pupils.addFootnote(tables.back());
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
  published.shortTerm = shortTermTable(early);
  published.release.shortTerm = early.released();
}

void addPupils(Published& published, const TermTotals& totals, const SuppressionRule& rule,
               std::span<const Release> earlier) {
  if (totals.total.screened == 0) return;
  const auto pupils = publication(pupilSystem(totals, earlier), rule, earlier, &Release::pupils);
  if (pupils.isLeaky()) return;
  published.pupils = pupilTables(pupils);
  published.release.pupils = pupils.released();
}

} // namespace gk::reports
