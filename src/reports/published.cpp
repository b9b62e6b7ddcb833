#include "reports/published.h"

#include "base/text.h"
#include "reports/cells.h"
#include "reports/published_counts.h"
#include "reports/words.h"

#include <algorithm>

namespace gk::reports {

namespace {

constexpr const char* version = "1";

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
    switch (shown_.cells.at(at->second)) {
    case Showing::number:
      return std::to_string(counts_.system.cells.at(at->second).value);
    case Showing::fewer:
      return "fewer than " + std::to_string(rule_.threshold());
    case Showing::withheld:
      return "withheld";
    }
    base::fail("no such showing");
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
  std::vector<std::string> names; ///< of the rows; the last is the total
  SuppressionRule rule;

  template <class CellsOf>
  void fill(Table& table, CellsOf cellsOf) const {
    for (std::size_t i = 0; i < names.size(); ++i) {
      const auto cells = cellsOf(ShownRow<E>(counts, shown, i, rule));
      table.rows.push_back({names[i]});
      table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
    }
    addFootnote(table);
  }

 private:
  void addFootnote(Table& table) const {
    const auto under = std::to_string(rule.threshold());
    table.notes.push_back(
        "Small numbers, method " + std::string(version) + ": counts of 1 to " +
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

/// Schools of which something is hidden would show more together than apart.
void adviseMerging(Table& table) {
  Cells names;
  for (std::size_t i = 0; i + 1 < table.rows.size(); ++i) {
    const auto& row = table.rows[i];
    const bool isHidden = std::any_of(row.begin() + 1, row.end(), [](const std::string& cell) {
      return cell == "withheld" || cell.starts_with("fewer");
    });
    if (isHidden) names.push_back(row.front());
  }
  if (names.size() > 1)
    table.notes.push_back(
        "Instead of blanks, schools can be shown as one group: " + base::join(names, ", ") +
        ". Choose once for the year, before anything is published; a table of "
        "the group and one of its schools give away the rest.");
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
  adviseMerging(table);
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

template <class E, class Lines, class NameOf>
Publication<E> publication(Counts<E> counts, const SuppressionRule& rule, const Lines& lines,
                           NameOf nameOf) {
  Publication<E> out{std::move(counts), {}, {}, rule};
  out.shown = suppress(out.counts.system, rule);
  for (const auto& line : lines)
    out.names.push_back(line.*nameOf);
  out.names.emplace_back("Total");
  return out;
}

} // namespace

std::vector<Table> publishedTables(const TermTotals& totals, const SuppressionRule& rule,
                                   std::span<const TermTotals> earlier) {
  const auto term =
      publication(termCounts(totals, rule, earlier), rule, totals.schools, &Participation::school);
  const auto checks = publication(checkCounts(totals, rule, earlier), rule,
                                  totals.retention.schools, &RetentionLine::label);
  return {participationTable(totals, term), serviceTable(term), findingTable(term),
          checkTable(totals, checks)};
}

} // namespace gk::reports
