#include "reports/published_counts.h"

#include <algorithm>

namespace gk::reports {

namespace {

std::map<Figure, std::optional<int>> rowOf(const Participation& at) {
  return {{Figure::enrolled, at.enrolled},
          {Figure::formsBack, at.formsBack},
          {Figure::consented, at.consented},
          {Figure::screened, at.screened},
          {Figure::notScreened, at.consented - at.screened},
          {Figure::needing, at.needing},
          {Figure::sealed, at.sealed},
          {Figure::firstMolars, at.firstMolars},
          {Figure::secondMolars, at.secondMolars},
          {Figure::otherTeeth, at.otherTeeth},
          {Figure::teeth, at.teeth()},
          {Figure::varnish, at.varnish},
          {Figure::untreated, at.untreated},
          {Figure::early, at.early},
          {Figure::urgent, at.urgent}};
}

std::map<CheckFigure, std::optional<int>> rowOf(const RetentionLine& at) {
  return {{CheckFigure::childrenDue, at.childrenDue},
          {CheckFigure::childrenFound, at.childrenFound},
          {CheckFigure::due, at.due},
          {CheckFigure::examined, at.examined},
          {CheckFigure::assessable, at.assessable},
          {CheckFigure::whole, at.whole},
          {CheckFigure::part, at.part},
          {CheckFigure::lost, at.lost},
          {CheckFigure::cannotAssess, at.cannotAssess}};
}

/// A total says more to more readers than one school's line.
constexpr double dearTotal = 5;

/// Denominators of many rates are withheld last; what only fills a column, first.
double dearness(Figure figure) {
  switch (figure) {
  case Figure::screened:
    return 4;
  case Figure::enrolled:
  case Figure::consented:
  case Figure::needing:
    return 2;
  case Figure::formsBack:
  case Figure::notScreened:
  case Figure::sealed:
  case Figure::firstMolars:
  case Figure::secondMolars:
  case Figure::otherTeeth:
  case Figure::teeth:
  case Figure::varnish:
  case Figure::untreated:
  case Figure::early:
  case Figure::urgent:
    return 1;
  }
  base::fail("no such figure");
}

double dearness(CheckFigure figure) {
  return figure == CheckFigure::assessable || figure == CheckFigure::childrenDue ? 2 : 1;
}

CountKind kindOf(Figure figure) {
  return figure == Figure::notScreened ? CountKind::rest : CountKind::count;
}

CountKind kindOf(CheckFigure /*figure*/) {
  return CountKind::count;
}

/// What one row's figures have to do with each other.
template <class E>
class RowSums {
 public:
  RowSums(CountSystem& system, const std::map<E, std::size_t>& row) : system_(system), row_(row) {}

  void sum(E whole, const std::vector<E>& parts) {
    if (const auto cells = found(whole, parts); cells && left(*cells) == 0)
      system_.sums.push_back(*cells);
  }

  /// Only where the parts do not exceed the whole: else a reader knows nothing of it.
  void rest(CountKind kind, E whole, const std::vector<E>& parts) {
    if (auto cells = found(whole, parts); cells && left(*cells) >= 0)
      system_.addRest(kind, cells->whole, std::move(cells->parts));
  }

 private:
  [[nodiscard]] std::optional<CountSum> found(E whole, const std::vector<E>& parts) const {
    if (!row_.contains(whole)) return std::nullopt;
    CountSum out{row_.at(whole), {}};
    for (const auto part : parts) {
      if (!row_.contains(part)) return std::nullopt;
      out.parts.push_back(row_.at(part));
    }
    return out;
  }

  [[nodiscard]] int left(const CountSum& cells) const {
    int out = system_.cells.at(cells.whole).value;
    for (const auto part : cells.parts)
      out -= system_.cells.at(part).value;
    return out;
  }

  CountSystem& system_;
  const std::map<E, std::size_t>& row_;
};

void relate(CountSystem& system, const std::map<Figure, std::size_t>& row) {
  RowSums sums(system, row);
  sums.rest(CountKind::rest, Figure::enrolled, {Figure::formsBack});
  sums.rest(CountKind::rest, Figure::enrolled, {Figure::consented});
  sums.rest(CountKind::rest, Figure::formsBack, {Figure::consented});
  sums.sum(Figure::consented, {Figure::screened, Figure::notScreened});
  sums.rest(CountKind::rest, Figure::screened, {Figure::needing});
  sums.rest(CountKind::rest, Figure::needing, {Figure::sealed});
  sums.rest(CountKind::rest, Figure::screened, {Figure::sealed});
  sums.rest(CountKind::rest, Figure::screened, {Figure::varnish});
  sums.rest(CountKind::rest, Figure::screened, {Figure::untreated});
  sums.rest(CountKind::rest, Figure::screened, {Figure::early, Figure::urgent});
  sums.sum(Figure::teeth, {Figure::firstMolars, Figure::secondMolars, Figure::otherTeeth});
  sums.rest(CountKind::slack, Figure::teeth, {Figure::sealed});
  sums.sum(Figure::untreated, {Figure::early, Figure::urgent});
}

void relate(CountSystem& system, const std::map<CheckFigure, std::size_t>& row) {
  RowSums sums(system, row);
  sums.rest(CountKind::rest, CheckFigure::childrenDue, {CheckFigure::childrenFound});
  sums.rest(CountKind::rest, CheckFigure::due, {CheckFigure::examined});
  sums.rest(CountKind::slack, CheckFigure::due, {CheckFigure::childrenDue});
  sums.rest(CountKind::slack, CheckFigure::examined, {CheckFigure::childrenFound});
  sums.sum(CheckFigure::examined, {CheckFigure::assessable, CheckFigure::cannotAssess});
  sums.sum(CheckFigure::assessable, {CheckFigure::whole, CheckFigure::part, CheckFigure::lost});
}

template <class E>
struct NamedRow {
  std::string name;
  std::map<E, std::optional<int>> values;
};
template <class E>
using NamedRows = std::vector<NamedRow<E>>; ///< the last is the total

template <class E>
CountGrid<E> addRows(CountSystem& system, const NamedRows<E>& rows) {
  CountGrid<E> grid(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (const auto& [figure, value] : rows[i].values)
      if (value)
        grid[i][figure] =
            system.add({.value = *value,
                        .kind = kindOf(figure),
                        .row = i,
                        .dearness = dearness(figure) * (i + 1 == rows.size() ? dearTotal : 1)});
    relate(system, grid[i]);
  }
  for (const auto& [figure, total] : grid.back()) {
    CountSum column{total, {}};
    for (std::size_t i = 0; i + 1 < grid.size(); ++i)
      if (const auto at = grid[i].find(figure); at != grid[i].end())
        column.parts.push_back(at->second);
    system.sums.push_back(std::move(column));
  }
  return grid;
}

/// A figure of an earlier table, and how far it has changed since: both are known sums.
void joinEarlier(CountSystem& system, std::size_t then, std::size_t now) {
  const bool grew = system.cells.at(now).value >= system.cells.at(then).value;
  system.addRest(CountKind::count, grew ? now : then, {grew ? then : now});
}

/// `history` is oldest first; the last is what is to be published now.
template <class E>
Counts<E> build(std::span<const NamedRows<E>> history, const SuppressionRule& rule) {
  Counts<E> out;
  const auto& rows = history.back();
  out.system.totalRow = rows.size() - 1;
  out.grid = addRows(out.system, rows);
  if (history.size() == 1) return out;
  const auto before = build(history.first(history.size() - 1), rule);
  const auto shown = suppress(before.system, rule);
  const auto& oldRows = history[history.size() - 2];
  const auto old = addRows(out.system, oldRows);
  for (std::size_t i = 0; i < old.size(); ++i) {
    const auto same = std::ranges::find(rows, oldRows[i].name, &NamedRow<E>::name);
    for (const auto& [figure, cell] : old[i]) {
      auto& then = out.system.cells.at(cell);
      then.printed = false;
      then.outAlready = shown.cells.at(before.grid[i].at(figure)) == Showing::number;
      if (same == rows.end()) continue;
      const auto& row = out.grid.at(static_cast<std::size_t>(same - rows.begin()));
      if (row.contains(figure)) joinEarlier(out.system, cell, row.at(figure));
    }
  }
  return out;
}

/// Two schools of one name are told apart by their place.
template <class E, class Line, class NameOf>
NamedRows<E> named(const std::vector<Line>& schools, const Line& total, NameOf nameOf) {
  NamedRows<E> rows;
  for (std::size_t i = 0; i < schools.size(); ++i)
    rows.push_back({nameOf(schools[i]), rowOf(schools[i])});
  std::map<std::string, int> seen;
  for (auto& row : rows)
    if (const int before = seen[row.name]++; before > 0) row.name += " " + std::to_string(before);
  rows.push_back({"", rowOf(total)});
  return rows;
}

NamedRows<Figure> rowsOf(const TermTotals& totals) {
  return named<Figure>(totals.schools, totals.total,
                       [](const Participation& at) { return at.school; });
}

NamedRows<CheckFigure> checkRowsOf(const TermTotals& totals) {
  return named<CheckFigure>(totals.retention.schools, totals.retention.total,
                            [](const RetentionLine& at) { return at.label; });
}

template <class E>
Counts<E> countsBy(NamedRows<E> (*rows)(const TermTotals&), const TermTotals& now,
                   const SuppressionRule& rule, std::span<const TermTotals> earlier) {
  std::vector<NamedRows<E>> history;
  for (const auto& one : earlier)
    history.push_back(rows(one));
  history.push_back(rows(now));
  return build<E>(history, rule);
}

} // namespace

TermCounts termCounts(const TermTotals& totals, const SuppressionRule& rule,
                      std::span<const TermTotals> earlier) {
  return countsBy<Figure>(rowsOf, totals, rule, earlier);
}

CheckCounts checkCounts(const TermTotals& totals, const SuppressionRule& rule,
                        std::span<const TermTotals> earlier) {
  return countsBy<CheckFigure>(checkRowsOf, totals, rule, earlier);
}

} // namespace gk::reports
