#pragma once

#include "base/text/text.h"
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
      : counts_(counts), shown_(shown), row_(counts.grid.at(row)), rule_(rule),
        name_(counts.names.at(row)) {}

  [[nodiscard]] const std::string& name() const { return name_; }

  [[nodiscard]] Cell count(E figure) const {
    const auto at = row_.find(figure);
    if (at == row_.end()) return Unknown{};
    return shownCount(counts_.system.cells.at(at->second).value, shown_.cells.at(at->second),
                      rule_);
  }

  /// A rate of two counts that are both shown.
  [[nodiscard]] Cell rate(E part, E whole) const {
    const auto pair = both(part, whole);
    return pair ? shareOf(pair->first, pair->second) : hidden(part, whole);
  }
  [[nodiscard]] Cell ratio(E part, E whole) const {
    const auto pair = both(part, whole);
    return pair ? numberPer(pair->first, pair->second, 2) : hidden(part, whole);
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
  [[nodiscard]] Cell hidden(E part, E whole) const {
    return row_.contains(part) && row_.contains(whole) ? Cell(Withheld{}) : Cell(Missing{});
  }

  const Counts<E>& counts_;
  const Suppressed& shown_;
  const std::map<E, std::size_t>& row_;
  const SuppressionRule& rule_;
  const std::string& name_;
};

// Columns of such rows.

template <class E>
Made<ShownRow<E>> shownCounts(std::string heading, std::string key, E figure) {
  return {counts(std::move(heading), std::move(key)),
          [=](const ShownRow<E>& row) { return row.count(figure); }};
}
template <class E>
Made<ShownRow<E>> shownRates(std::string heading, std::string key, E part, E whole) {
  return {shares(std::move(heading), std::move(key)),
          [=](const ShownRow<E>& row) { return row.rate(part, whole); }};
}

/// What a table with small numbers suppressed says of them.
void addFootnote(Table& table, const SuppressionRule& rule, bool isMerged, RowsPrinted rows,
                 int exposed);

/// Counts, how each is shown and under which rule.
template <class E>
struct Publication {
  Counts<E> counts;
  Suppressed shown;
  SuppressionRule rule;
  RowsPrinted rows = RowsPrinted::all;
  bool isMerged = false; ///< schools are one row that no one asked to be

  /// The table of these columns behind the rows' names, with its footnote.
  [[nodiscard]] Table table(std::string title, const std::string& names,
                            std::vector<Made<ShownRow<E>>> made, const std::string& note,
                            RowsPrinted wanted = RowsPrinted::all) const {
    made.insert(made.begin(), {texts(names), &ShownRow<E>::name});
    auto table = tableOf(std::move(title), made);
    const auto last = counts.names.size() - 1;
    for (std::size_t i = wanted == RowsPrinted::all ? 0 : last; i <= last; ++i)
      addRow(table, made, ShownRow<E>(counts, shown, i, rule));
    table.notes = {note};
    addFootnote(table);
    return table;
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

  /// Small counts within reach, or nearly, whatever is hidden.
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
    reports::addFootnote(table, rule, isMerged, rows, exposed());
  }
};

/// Whether `then` has these very rows, by school or grade, and says as much of each.
template <class E>
bool hasRowsOf(const std::vector<ReleasedRow<E>>& then, const Counts<E>& now) {
  const auto says = [](const auto& row) { return row.cells.size(); };
  return std::ranges::equal(then, now.schools, {}, &ReleasedRow<E>::schools) &&
         std::ranges::equal(then, now.grid, {}, says, &std::map<E, std::size_t>::size);
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
/// again: more may have gone out since, and elsewhere.
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

Table participationTable(std::string title, const std::string& rows, const std::string& note,
                         const Publication<Figure>& term);

} // namespace gk::reports
