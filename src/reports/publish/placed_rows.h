#pragma once

#include "reports/publish/published_counts.h"

#include <algorithm>
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

/// What an earlier page showed of a row that is the same still.
template <class F>
void showToo(CountSystem& system, const ReleasedRow<F>& row, const Placed<F>& now, int under) {
  for (const auto& [figure, cell] : row.cells) {
    auto& same = system.cells.at(now.cells.at(figure));
    if (cell.showing == Showing::number) same.outAlready = true;
    if (cell.showing == Showing::fewer) same.saidUnder = under;
  }
}

template <class F>
bool isUnchanged(const CountSystem& system, const ReleasedRow<F>& then, const Placed<F>& now) {
  return std::ranges::equal(then.cells, now.cells, [&](const auto& old, const auto& cell) {
    return old.first == cell.first && old.second.value == system.cells.at(cell.second).value;
  });
}

} // namespace gk::reports
