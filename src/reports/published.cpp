#include "reports/published.h"

#include "base/text.h"
#include "reports/cells.h"
#include "reports/published_counts.h"
#include "reports/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

constexpr const char* method = "1";
/// Each size tried suppresses the term anew.
constexpr std::size_t mostToMerge = 12;

/// The figures of one row as they may be shown.
template <class E>
class ShownRow {
 public:
  ShownRow(const Counts<E>& counts, const Suppressed& shown, std::size_t row,
           const SuppressionRule& rule)
      : counts_(counts), shown_(shown), row_(counts.grid.at(row)), rule_(rule) {}

  [[nodiscard]] std::string count(E figure) const {
    const auto at = row_.find(figure);
    if (at == row_.end()) return "unknown";
    return shownCount(counts_.system.cells.at(at->second).value, shown_.cells.at(at->second),
                      rule_);
  }

  /// A rate of two counts that are both shown.
  [[nodiscard]] std::string rate(E part, E whole) const {
    const auto pair = both(part, whole);
    return pair ? percent(pair->first, pair->second) : hidden(part, whole);
  }
  [[nodiscard]] std::string ratio(E part, E whole) const {
    const auto pair = both(part, whole);
    if (!pair) return hidden(part, whole);
    if (pair->second == 0) return nothing;
    return base::fixed(static_cast<double>(pair->first) / pair->second, 2);
  }

 private:
  [[nodiscard]] std::optional<int> number(E figure) const {
    const auto at = row_.find(figure);
    if (at == row_.end() || shown_.cells.at(at->second) != Showing::number) return std::nullopt;
    return counts_.system.cells.at(at->second).value;
  }
  [[nodiscard]] std::optional<std::pair<int, int>> both(E part, E whole) const {
    const auto one = number(part);
    const auto all = number(whole);
    if (!one || !all) return std::nullopt;
    return std::pair(*one, *all);
  }
  [[nodiscard]] std::string hidden(E part, E whole) const {
    return row_.contains(part) && row_.contains(whole) ? "withheld" : nothing;
  }

  const Counts<E>& counts_;
  const Suppressed& shown_;
  const std::map<E, std::size_t>& row_;
  const SuppressionRule& rule_;
};

template <class E>
struct Publication {
  Counts<E> counts;
  Suppressed shown;
  SuppressionRule rule;

  template <class CellsOf>
  void fill(Table& table, CellsOf cellsOf) const {
    for (std::size_t i = 0; i < counts.names.size(); ++i) {
      const auto cells = cellsOf(ShownRow<E>(counts, shown, i, rule));
      table.rows.push_back({counts.names[i]});
      table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
    }
    addFootnote(table);
  }

  [[nodiscard]] std::vector<ReleasedRow<E>> released() const {
    std::vector<ReleasedRow<E>> rows;
    for (std::size_t i = 0; i < counts.grid.size(); ++i) {
      rows.push_back({counts.schools[i], {}});
      for (const auto& [figure, cell] : counts.grid[i])
        rows.back().cells[figure] = {counts.system.cells[cell].value, shown.cells[cell]};
    }
    return rows;
  }

  [[nodiscard]] int size() const {
    int count = 0;
    for (const auto& row : counts.grid)
      count += static_cast<int>(row.size());
    return count;
  }
  [[nodiscard]] int hidden() const {
    int count = 0;
    for (const auto& row : counts.grid)
      count += static_cast<int>(std::ranges::count_if(
          row, [&](const auto& cell) { return shown.cells[cell.second] != Showing::number; }));
    return count;
  }

  void addFootnote(Table& table) const {
    const auto under = std::to_string(rule.threshold());
    table.notes.push_back(
        "Small numbers, method " + std::string(method) + ": counts of 1 to " +
        std::to_string(rule.threshold() - 1) + " read \"fewer than " + under +
        "\". \"Withheld\" is a number of any size, or a rate built on one, that would give such a "
        "count away by subtraction, or is all of its group or all but fewer than " +
        under + ". Rates on fewer than 30 are marked unstable.");
    if (!shown.exposed.empty())
      table.notes.push_back(
          "NOT TO BE PUBLISHED: with what earlier tables showed, " +
          counted(static_cast<int>(shown.exposed.size()), "small count", "small counts") +
          " could still be worked out.");
  }
};

using Term = Publication<Figure>;
using Checks = Publication<CheckFigure>;
std::string period(const TermTotals& totals) {
  return totals.term + ", " + totals.start.iso() + " to " + std::min(totals.asOf, totals.end).iso();
}

Table participationTable(const TermTotals& totals, const Term& term) {
  Table table{"Participation: " + period(totals),
              {{"School"},
               right("Enrolled"),
               right("Forms back"),
               right("Consented"),
               right("% of enrolled"),
               right("Screened"),
               right("% of consented"),
               right("Not screened")},
              {},
              {"Children, each once, by the school they are in now."}};
  term.fill(table, [](const ShownRow<Figure>& row) -> Cells {
    return {row.count(Figure::enrolled),   row.count(Figure::formsBack),
            row.count(Figure::consented),  row.rate(Figure::consented, Figure::enrolled),
            row.count(Figure::screened),   row.rate(Figure::screened, Figure::consented),
            row.count(Figure::notScreened)};
  });
  return table;
}

Table serviceTable(const Term& term) {
  Table table{"Services",
              {{"School"},
               right("Needing sealants"),
               right("% of screened"),
               right("Sealed"),
               right("% of needing"),
               right("First molars"),
               right("Second molars"),
               right("Other teeth"),
               right("Teeth"),
               right("Teeth per sealed child"),
               right("Varnish")},
              {},
              {"Needing, sealed and varnish are children; a sealed tooth counts once."}};
  term.fill(table, [](const ShownRow<Figure>& row) -> Cells {
    return {row.count(Figure::needing),
            row.rate(Figure::needing, Figure::screened),
            row.count(Figure::sealed),
            row.rate(Figure::sealed, Figure::needing),
            row.count(Figure::firstMolars),
            row.count(Figure::secondMolars),
            row.count(Figure::otherTeeth),
            row.count(Figure::teeth),
            row.ratio(Figure::teeth, Figure::sealed),
            row.count(Figure::varnish)};
  });
  return table;
}

Table findingTable(const Term& term) {
  Table table{"Findings",
              {{"School"},
               right("Screened"),
               right("Untreated decay"),
               right("%"),
               right("Early care"),
               right("Urgent"),
               right("% urgent")},
              {},
              {"By the screening, not a dental examination."}};
  term.fill(table, [](const ShownRow<Figure>& row) -> Cells {
    return {row.count(Figure::screened),
            row.count(Figure::untreated),
            row.rate(Figure::untreated, Figure::screened),
            row.count(Figure::early),
            row.count(Figure::urgent),
            row.rate(Figure::urgent, Figure::screened)};
  });
  return table;
}

Table checkTable(const TermTotals& totals, const Checks& checks) {
  Table table{"Retention at " + std::to_string(totals.window.fromMonths) + " to " +
                  std::to_string(totals.window.untilMonths) + " months, by placing school",
              {{"Placed at"},
               right("Children due"),
               right("Children found"),
               right("Found %"),
               right("Teeth due"),
               right("Examined"),
               right("Assessable"),
               right("Whole"),
               right("Part"),
               right("Lost"),
               right("Cannot assess"),
               right("Whole %")},
              {},
              {"Found children only. Whole % is whole of assessable."}};
  checks.fill(table, [](const ShownRow<CheckFigure>& row) -> Cells {
    return {row.count(CheckFigure::childrenDue),
            row.count(CheckFigure::childrenFound),
            row.rate(CheckFigure::childrenFound, CheckFigure::childrenDue),
            row.count(CheckFigure::due),
            row.count(CheckFigure::examined),
            row.count(CheckFigure::assessable),
            row.count(CheckFigure::whole),
            row.count(CheckFigure::part),
            row.count(CheckFigure::lost),
            row.count(CheckFigure::cannotAssess),
            row.rate(CheckFigure::whole, CheckFigure::assessable)};
  });
  return table;
}

Table shortTermTable(const Checks& checks) {
  Table table{"Short-term checks, of all schools together",
              {{"Schools"},
               right("Children"),
               right("Examined"),
               right("Assessable"),
               right("Whole"),
               right("Part"),
               right("Lost"),
               right("Cannot assess"),
               right("Whole %")},
              {},
              {"Made this term, within two months of placement; they never enter the one-year "
               "figures."}};
  checks.fill(table, [](const ShownRow<CheckFigure>& row) -> Cells {
    return {row.count(CheckFigure::childrenFound),
            row.count(CheckFigure::examined),
            row.count(CheckFigure::assessable),
            row.count(CheckFigure::whole),
            row.count(CheckFigure::part),
            row.count(CheckFigure::lost),
            row.count(CheckFigure::cannotAssess),
            row.rate(CheckFigure::whole, CheckFigure::assessable)};
  });
  return table;
}

/// One for each question that anybody answered.
std::vector<Table> pupilTables(const Publication<PupilFigure>& pupils) {
  std::vector<Table> tables;
  const ShownRow<PupilFigure> row(pupils.counts, pupils.shown, 0, pupils.rule);
  const auto& counts = pupils.counts.grid.front();
  for (const auto& question : pupilQuestions()) {
    const auto valueOf = [&](PupilFigure figure) {
      return pupils.counts.system.cells.at(counts.at(figure)).value;
    };
    if (valueOf(question.figures.back()) == valueOf(PupilFigure::screened)) continue;
    Table table{std::string("Children screened, by ") + question.by,
                {{question.heading}, right("Children"), right("% of screened")},
                {},
                {}};
    for (const auto figure : question.figures)
      table.rows.push_back(
          {wordsOf(figure), row.count(figure), row.rate(figure, PupilFigure::screened)});
    table.rows.push_back({"Total", row.count(PupilFigure::screened), ""});
    tables.push_back(std::move(table));
  }
  if (!tables.empty()) {
    tables.back().notes.emplace_back(
        "As the forms said, of all schools together. Race and ethnicity: the categories of OMB "
        "Statistical Policy Directive No. 15 (2024); who named several stands in a row alone.");
    pupils.addFootnote(tables.back());
  }
  return tables;
}

/// Whether `then` has these very rows, by school; and if so whether it counted the same.
template <class E>
bool hasRowsOf(const std::vector<ReleasedRow<E>>& then, const Counts<E>& now) {
  return std::ranges::equal(then, now.schools, {}, &ReleasedRow<E>::schools);
}

template <class E>
bool countsAlike(const std::vector<ReleasedRow<E>>& then, const Counts<E>& now) {
  for (std::size_t i = 0; i < then.size(); ++i) {
    const auto same = [&](const auto& one, const auto& other) {
      return one.first == other.first && one.second.value == now.system.cells[other.second].value;
    };
    if (!std::ranges::equal(then[i].cells, now.grid[i], same)) return false;
  }
  return true;
}

/// As the last release with these rows showed them, when it counted the same under the same rule:
/// another choice of what to hide would tell more than either.
template <class E>
std::optional<Suppressed> asBefore(const Counts<E>& now, const SuppressionRule& rule,
                                   std::span<const Release> earlier,
                                   std::vector<ReleasedRow<E>> Release::*rows) {
  const auto last = std::find_if(earlier.rbegin(), earlier.rend(),
                                 [&](const Release& one) { return hasRowsOf(one.*rows, now); });
  if (last == earlier.rend() || last->under != rule.threshold() || !countsAlike((*last).*rows, now))
    return std::nullopt;
  Suppressed shown{std::vector(now.system.cells.size(), Showing::withheld), {}};
  for (std::size_t i = 0; i < now.grid.size(); ++i)
    for (const auto& [figure, cell] : now.grid[i])
      shown.cells[cell] = ((*last).*rows)[i].cells.at(figure).showing;
  return shown;
}

template <class E>
Publication<E> publication(Counts<E> counts, const SuppressionRule& rule,
                           std::span<const Release> earlier,
                           std::vector<ReleasedRow<E>> Release::*rows) {
  auto shown = asBefore(counts, rule, earlier, rows);
  if (!shown) shown = suppress(counts.system, rule);
  return {std::move(counts), *std::move(shown), rule};
}

std::vector<std::string> bySize(const TermTotals& totals) {
  auto schools = totals.schools;
  std::ranges::stable_sort(schools, {}, &Participation::screened);
  std::vector<std::string> names;
  for (const auto& one : schools)
    names.push_back(one.school);
  return names;
}

} // namespace

std::string shownCount(int value, Showing showing, const SuppressionRule& rule) {
  switch (showing) {
  case Showing::number:
    return number(value);
  case Showing::fewer:
    return "fewer than " + number(rule.threshold());
  case Showing::withheld:
    return "withheld";
  }
  base::fail("no such showing");
}

Published publish(const TermTotals& totals, const SuppressionRule& rule,
                  std::span<const Release> earlier, const Groups& groups) {
  const auto term = publication(termCounts(totals, earlier, groups), rule, earlier, &Release::term);
  const auto checks =
      publication(checkCounts(totals, earlier, groups), rule, earlier, &Release::checks);
  Published out{{participationTable(totals, term), serviceTable(term), findingTable(term),
                 checkTable(totals, checks)},
                {},
                {},
                {rule.threshold(), term.released(), checks.released()},
                term.size() + checks.size(),
                term.hidden() + checks.hidden(),
                static_cast<int>(term.shown.exposed.size() + checks.shown.exposed.size())};
  if (totals.shortTerm.examined > 0) {
    const auto early =
        publication(shortTermCounts(totals, earlier), rule, earlier, &Release::shortTerm);
    out.shortTerm = shortTermTable(early);
    out.release.shortTerm = early.released();
    out.exposed += static_cast<int>(early.shown.exposed.size());
  }
  // Who they are adds up to how many they are.
  const bool isTotalShown =
      term.shown.cells.at(term.counts.grid.back().at(Figure::screened)) == Showing::number;
  if (!isTotalShown || totals.total.screened == 0) return out;
  const auto pupils = publication(pupilSystem(totals, earlier), rule, earlier, &Release::pupils);
  if (!pupils.shown.exposed.empty()) return out; // too few to tell who they are
  out.pupils = pupilTables(pupils);
  out.release.pupils = pupils.released();
  return out;
}

Groups groupsToOffer(const TermTotals& totals, const SuppressionRule& rule,
                     std::span<const Release> earlier) {
  const auto names = bySize(totals);
  const auto apart = publish(totals, rule, earlier);
  for (std::size_t size = 2; size < std::min(names.size(), mostToMerge + 1); ++size) {
    Groups groups{{names.begin(), names.begin() + static_cast<std::ptrdiff_t>(size)}};
    const auto merged = publish(totals, rule, earlier, groups);
    if (merged.hidden * apart.counts < apart.hidden * merged.counts) return groups;
  }
  return {};
}

} // namespace gk::reports
