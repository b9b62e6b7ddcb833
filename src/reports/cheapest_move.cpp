#include "reports/cheapest_move.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace gk::reports {

namespace {

constexpr double tiny = 1e-9;
constexpr double dust = 1e-11;
constexpr double pull = 1e7;     ///< worth of a unit of the wanted change; above any cost of it
constexpr int patience = 40;     ///< pivots without progress before Bland's rule takes over
constexpr int mostPivots = 3000; ///< a stop; every tableau on the way is feasible

/// min cost x with T x = 0, 0 <= x <= upper. Basic at first is an artificial variable for each row,
/// held at 0, so that x = 0 is where it starts.
class Tableau {
 public:
  Tableau(std::size_t rows, std::size_t columns)
      : columns_(columns), cells_(rows * columns), right_(rows), basis_(rows),
        upper_(columns + rows), cost_(columns), isFlipped_(columns + rows) {
    for (std::size_t i = 0; i < rows; ++i)
      basis_[i] = columns + i;
  }

  double& at(std::size_t row, std::size_t column) { return cells_[row * columns_ + column]; }
  void bound(std::size_t column, double upper, double cost) {
    upper_[column] = upper;
    cost_[column] = cost;
  }

  std::vector<double> solve() {
    int idle = 0;
    for (int i = 0; i < mostPivots; ++i) {
      const bool byBland = idle > patience;
      const auto column = entering(byBland);
      if (!column) break;
      idle = step(*column, byBland) > tiny ? 0 : idle + 1;
    }
    std::vector<double> out(columns_);
    for (std::size_t i = 0; i < basis_.size(); ++i)
      if (basis_[i] < columns_) out[basis_[i]] = right_[i];
    for (std::size_t j = 0; j < columns_; ++j)
      if (isFlipped_[j]) out[j] = upper_[j] - out[j];
    return out;
  }

 private:
  [[nodiscard]] std::optional<std::size_t> entering(bool byBland) const {
    std::optional<std::size_t> best;
    double lowest = -1e-6;
    for (std::size_t j = 0; j < columns_; ++j) {
      if (cost_[j] >= lowest || upper_[j] <= 0) continue;
      best = j;
      if (byBland) break;
      lowest = cost_[j];
    }
    return best;
  }

  /// How far the entering variable went.
  double step(std::size_t column, bool byBland) {
    double length = upper_[column];
    std::optional<std::size_t> leaving;
    for (std::size_t i = 0; i < basis_.size(); ++i) {
      const double slope = at(i, column);
      if (std::fabs(slope) < tiny) continue;
      const double room = slope > 0 ? right_[i] / slope : (upper_[basis_[i]] - right_[i]) / -slope;
      // Of equals the largest pivot, so that rounding does not grow; by Bland the lowest name.
      const bool isTie = leaving && std::fabs(room - length) <= tiny;
      const bool isBetter = isTie && (byBland ? basis_[i] < basis_[*leaving]
                                              : std::fabs(slope) > std::fabs(at(*leaving, column)));
      if (room < length - tiny || isBetter) {
        length = std::max(room, 0.0);
        leaving = i;
      }
    }
    if (!leaving)
      flipColumn(column);
    else
      pivot(*leaving, column);
    return length;
  }

  void flipColumn(std::size_t column) {
    for (std::size_t i = 0; i < basis_.size(); ++i) {
      right_[i] -= at(i, column) * upper_[column];
      at(i, column) = -at(i, column);
    }
    cost_[column] = -cost_[column];
    isFlipped_[column] = !isFlipped_[column];
  }

  void pivot(std::size_t row, std::size_t column) {
    const auto leaving = basis_[row];
    if (at(row, column) < 0) { // it leaves at its upper bound: count it down from there
      for (std::size_t j = 0; j < columns_; ++j)
        at(row, j) = -at(row, j);
      right_[row] = upper_[leaving] - right_[row];
      isFlipped_[leaving] = !isFlipped_[leaving];
      if (leaving < columns_) at(row, leaving) = 1;
    }
    const double by = at(row, column);
    filled_.clear(); // most of a row is nought, and changes nothing below
    for (std::size_t j = 0; j < columns_; ++j)
      if (at(row, j) != 0) {
        at(row, j) /= by;
        filled_.push_back(j);
      }
    right_[row] /= by;
    for (std::size_t i = 0; i < basis_.size(); ++i) {
      const double factor = at(i, column);
      if (i == row || factor == 0) continue;
      for (const auto j : filled_) {
        auto& cell = at(i, j);
        cell -= factor * at(row, j);
        if (std::fabs(cell) < dust) cell = 0; // what rounding left of nought
      }
      right_[i] -= factor * right_[row];
      if (std::fabs(right_[i]) < dust) right_[i] = 0;
    }
    const double factor = cost_[column];
    for (const auto j : filled_)
      cost_[j] -= factor * at(row, j);
    cost_[column] = 0;
    basis_[row] = column;
  }

  std::size_t columns_;
  std::vector<double> cells_;
  std::vector<double> right_;
  std::vector<std::size_t> basis_;
  std::vector<double> upper_; ///< artificial variables last, held at 0
  std::vector<double> cost_;
  std::vector<bool> isFlipped_;
  std::vector<std::size_t> filled_; ///< columns of the pivot's row
};

} // namespace

std::vector<double> cheapestMove(const std::vector<Movable>& movables,
                                 const std::vector<Balance>& balances, std::size_t which,
                                 double wanted) {
  const auto count = movables.size();
  Tableau tableau(balances.size(), 2 * count); // ups first, then downs
  for (std::size_t i = 0; i < balances.size(); ++i)
    for (const auto& [movable, weight] : balances[i]) {
      tableau.at(i, movable) = weight;
      tableau.at(i, count + movable) = -weight;
    }
  for (std::size_t j = 0; j < count; ++j) {
    tableau.bound(j, movables[j].up, movables[j].cost);
    tableau.bound(count + j, movables[j].down, movables[j].cost);
  }
  tableau.bound(which, std::clamp(wanted, 0.0, movables[which].up), -pull);
  tableau.bound(count + which, std::clamp(-wanted, 0.0, movables[which].down), -pull);
  const auto parts = tableau.solve();
  std::vector<double> changes(count);
  for (std::size_t j = 0; j < count; ++j)
    changes[j] = parts[j] - parts[count + j];
  return changes;
}

} // namespace gk::reports
