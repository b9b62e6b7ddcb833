#pragma once

#include "reports/publish/figure_relations.h"
#include "reports/publish/published_counts.h"

#include <algorithm>
#include <type_traits>
#include <utility>

namespace gk::reports {

// Rows of figures in a system of counts, and how they hang together.

template <class E>
struct Line {
  std::string key;
  std::string name;
  std::map<E, std::optional<int>> values;
};

/// A row of the system and the keys of the schools that it is the sum of; none for the total.
template <class E>
struct Placed {
  std::vector<std::string> schools;
  std::size_t row = 0;
  std::map<E, std::size_t> cells;
};

/// The rows that a release had, and its threshold.
template <class E>
struct OldRows {
  const std::vector<ReleasedRow<E>>* rows;
  int under;
  std::string otherTerm;
  bool isWeighedWhole; ///< its rows and sums, and not only what has changed since
};

/// Figures of all schools alone are no sum, nor is one that a school lacks or that is not.
template <class F>
void addSum(CountSystem& system, const Placed<F>& whole, const std::vector<Placed<F>>& parts) {
  for (const auto& [figure, cell] : whole.cells) {
    CountSum sum{cell, {}};
    int left = system.cells.at(cell).value;
    for (const auto& part : parts)
      if (const auto at = part.cells.find(figure); at != part.cells.end()) {
        sum.parts.push_back(at->second);
        left -= system.cells.at(at->second).value;
      }
    if (!parts.empty() && sum.parts.size() == parts.size() && left == 0)
      system.sums.push_back(std::move(sum));
  }
}

/// `theirs` of other terms' rows together are no fewer than `ours`, or no more where they are
/// what came of ours; the same, where they are.
template <class E, class F>
void follow(CountSystem& system, const std::vector<Placed<F>>& rows, F theirs,
            const std::map<E, std::size_t>& now, E ours, bool areWhole) {
  const auto mine = now.find(ours);
  if (mine == now.end()) return;
  std::vector<std::size_t> cells;
  int sum = 0;
  for (const auto& row : rows) {
    const auto at = row.cells.find(theirs);
    if (at == row.cells.end()) return;
    cells.push_back(at->second);
    sum += system.cells.at(at->second).value;
  }
  const int left = areWhole ? sum - system.cells.at(mine->second).value
                            : system.cells.at(mine->second).value - sum;
  if (left < 0) return;
  if (left == 0) {
    system.sums.push_back({mine->second, std::move(cells)});
    return;
  }
  if (!areWhole) {
    system.addRest(CountKind::slack, mine->second, std::move(cells));
    return;
  }
  auto whole = cells.front();
  if (cells.size() > 1) {
    whole = system.add({.value = sum,
                        .kind = CountKind::slack,
                        .row = system.cells.at(whole).row,
                        .printed = false});
    system.sums.push_back({whole, std::move(cells)});
  }
  system.addRest(CountKind::slack, whole, {mine->second});
}

/// A figure of an earlier table, and how far it has changed since: both are known sums.
inline void joinEarlier(CountSystem& system, std::size_t then, std::size_t now) {
  const bool grew = system.cells.at(now).value >= system.cells.at(then).value;
  const bool isSecret = system.cells.at(now).kind != CountKind::slack;
  system.addRest(isSecret ? CountKind::count : CountKind::slack, grew ? now : then,
                 {grew ? then : now});
}
template <class F>
void joinEarlier(CountSystem& system, const Placed<F>& then, const Placed<F>& now) {
  // A count that only one of the two pages had told apart has changed since as well.
  if constexpr (std::is_same_v<F, Figure>)
    for (const auto figure : {Figure::sealedInNeed, Figure::varnishScreened})
      if (then.cells.contains(figure) != now.cells.contains(figure)) {
        const auto before = withSameAs(then.cells);
        const auto after = withSameAs(now.cells);
        if (before.contains(figure) && after.contains(figure))
          joinEarlier(system, before.at(figure), after.at(figure));
      }
  for (const auto& [figure, cell] : then.cells)
    if (const auto at = now.cells.find(figure); at != now.cells.end())
      joinEarlier(system, cell, at->second);
}

/// What an earlier page showed of a row that is the same still.
template <class F>
void showToo(CountSystem& system, const ReleasedRow<F>& row, const Placed<F>& now, int under) {
  for (const auto& [figure, cell] : row.cells) {
    const auto at = now.cells.find(figure);
    if (at == now.cells.end()) continue;
    auto& same = system.cells.at(at->second);
    if (cell.showing == Showing::number) same.outAlready = true;
    if (cell.showing == Showing::fewer) same.saidUnder = under;
  }
}

/// Whether all that it said is so still, as far as both speak of it: a state's report has no
/// findings by school.
template <class F>
bool isUnchanged(const CountSystem& system, const ReleasedRow<F>& then, const Placed<F>& now) {
  return std::ranges::all_of(then.cells, [&](const auto& old) {
    const auto at = now.cells.find(old.first);
    if (at != now.cells.end()) return old.second.value == system.cells.at(at->second).value;
    if constexpr (std::is_same_v<F, Figure>)
      return isFinding(old.first) && !now.cells.contains(Figure::untreated);
    return false;
  });
}

/// The rows of a state's report as they went out, what hangs together in them, and the term's
/// total of that day, `then`, which has some of their figures.
std::vector<Placed<IndicatorFigure>> placeIndicators(CountSystem& system, const Release& page,
                                                     const Placed<Figure>& then);

// Rows as they were counted, and pages as they went out.

inline std::string keyOf(const RetentionLine& line) {
  return line.school ? line.school->text() : line.label;
}
inline const std::string& labelOf(const Participation& school) {
  return school.school;
}
inline const std::string& labelOf(const RetentionLine& line) {
  return line.label;
}

template <class E, class Row>
std::vector<Line<E>> linesOf(const std::vector<Row>& rows) {
  std::vector<Line<E>> lines;
  for (const auto& row : rows)
    lines.push_back({keyOf(row), labelOf(row), rowOf(row)});
  return lines;
}

template <class E>
using RowsOf = std::vector<ReleasedRow<E>>;

/// Weighed whole are, of those that say less and those that say more, the newest each; and each
/// state's report, whose indicators hang on its total.
template <class F>
std::vector<OldRows<F>> pagesOf(std::span<const Release> releases, OfTerm of,
                                RowsOf<F> Release::*rows) {
  std::vector<OldRows<F>> pages;
  std::size_t most = 0;
  std::size_t fullest = 0;
  for (const auto& one : releases) {
    if (one.of != of || (one.*rows).empty()) continue;
    std::size_t says = 0;
    for (const auto& row : one.*rows)
      says += row.cells.size();
    if (says >= most) {
      most = says;
      fullest = pages.size();
    }
    pages.push_back({&(one.*rows), one.under, one.otherTerm, !one.indicators.empty()});
  }
  if (!pages.empty()) pages.back().isWeighedWhole = pages[fullest].isWeighedWhole = true;
  return pages;
}

} // namespace gk::reports
