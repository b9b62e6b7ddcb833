#pragma once

#include "base/text.h"
#include "reports/print/cells.h"
#include "reports/publish/published.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::reports {

/// How a set of counts becomes a table that may go out: by school, of the checks, by grade.

inline constexpr const char* smallNumbersMethod = "2";

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
    return row_.contains(part) && row_.contains(whole) ? "suppressed" : nothing;
  }

  const Counts<E>& counts_;
  const Suppressed& shown_;
  const std::map<E, std::size_t>& row_;
  const SuppressionRule& rule_;
};

/// Counts, how each is shown and under which rule.
template <class E>
struct Publication {
  Counts<E> counts;
  Suppressed shown;
  SuppressionRule rule;
  RowsPrinted rows = RowsPrinted::all;
  bool isMerged = false; ///< schools are one row that nobody asked to be

  template <class CellsOf>
  void fill(Table& table, CellsOf cellsOf, RowsPrinted wanted = RowsPrinted::all) const {
    const auto last = counts.names.size() - 1;
    for (std::size_t i = wanted == RowsPrinted::all ? 0 : last; i <= last; ++i) {
      const auto cells = cellsOf(ShownRow<E>(counts, shown, i, rule));
      table.rows.push_back({counts.names[i]});
      table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
    }
    addFootnote(table);
  }

  [[nodiscard]] std::vector<ReleasedRow<E>> released() const {
    std::vector<ReleasedRow<E>> told;
    for (std::size_t i = 0; i < counts.grid.size(); ++i) {
      told.push_back({counts.schools[i], {}});
      for (const auto& [figure, cell] : counts.grid[i])
        told.back().cells[figure] = {counts.system.cells[cell].value, shown.cells[cell]};
    }
    return told;
  }

  /// Small counts that stay within reach, or nearly, whatever is hidden.
  [[nodiscard]] int exposed() const { return shown.leaks(); }
  [[nodiscard]] bool isLeaky() const { return exposed() > 0; }

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
        "Small numbers, method " + std::string(smallNumbersMethod) + ": counts of 1 to " +
        std::to_string(rule.threshold() - 1) + " read \"fewer than " + under +
        "\". \"Suppressed\" is a number of any size, or a rate built on one, that "
        "would reveal such a count by subtraction, or is all of its group or all but "
        "fewer than " +
        under + ". Rates on fewer than 30 are marked unstable.");
    if (isMerged)
      table.notes.emplace_back("The smallest schools are one row: with what other tables showed, "
                               "each by itself would give small counts away.");
    if (rows == RowsPrinted::totalAlone)
      table.notes.emplace_back("By school is left out: with what other tables showed, it would "
                               "give small counts away.");
    if (isLeaky())
      table.notes.push_back("NOT TO BE PUBLISHED: with what earlier tables showed, " +
                            counted(exposed(), "small count", "small counts") +
                            " could still be worked out.");
  }
};

/// Whether `then` has these very rows, by school or grade.
template <class E>
bool hasRowsOf(const std::vector<ReleasedRow<E>>& then, const Counts<E>& now) {
  return std::ranges::equal(then, now.schools, {}, &ReleasedRow<E>::schools);
}

/// The same rows: whether they counted the same.
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
/// another choice of what to hide would tell more than either. Whether it still protects is asked
/// anew: more may have gone out since, and elsewhere.
template <class E>
std::optional<Suppressed> asBefore(const Counts<E>& now, const SuppressionRule& rule,
                                   std::span<const Release> earlier,
                                   std::vector<ReleasedRow<E>> Release::*rows) {
  const auto last = std::find_if(earlier.rbegin(), earlier.rend(), [&](const Release& one) {
    return one.of == OfTerm::same && hasRowsOf(one.*rows, now);
  });
  if (last == earlier.rend() || last->under != rule.threshold() ||
      last->bySchool != rule.bySchool() || !countsAlike((*last).*rows, now))
    return std::nullopt;
  Suppressed shown{std::vector(now.system.cells.size(), Showing::withheld), {}};
  auto system = now.system;
  for (std::size_t i = 0; i < now.grid.size(); ++i)
    for (const auto& [figure, cell] : now.grid[i]) {
      shown.cells[cell] = ((*last).*rows)[i].cells.at(figure).showing;
      if (shown.cells[cell] == Showing::number) system.cells[cell].outAlready = true;
      if (shown.cells[cell] == Showing::fewer) system.cells[cell].saidUnder = rule.threshold();
    }
  auto left = suppress(system, rule);
  shown.exposed = std::move(left.exposed);
  shown.narrowed = std::move(left.narrowed);
  return shown;
}

/// `rows` is where a release has these.
template <class E>
Publication<E>
publication(Counts<E> counts, const SuppressionRule& rule, std::span<const Release> earlier,
            std::vector<ReleasedRow<E>> Release::*rows, Search search = Search::whole) {
  auto shown = asBefore(counts, rule, earlier, rows);
  if (!shown) shown = suppress(counts.system, rule, search);
  return {std::move(counts), *std::move(shown), rule};
}

/// The columns of participation by whatever the rows are.
Table participationTable(std::string title, std::string rows, std::string note,
                         const Publication<Figure>& term);

} // namespace gk::reports
