#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace gk::reports {

/// A number that may change by so much down and up, at a cost for each unit.
struct Movable {
  double down;
  double up;
  double cost; ///< above 0, and small beside 1e7
};

/// Weights of movables whose changes cancel: sum of weight x change = 0.
using Balance = std::vector<std::pair<std::size_t, double>>;

/// The cheapest set of changes that keeps every balance and moves `which` as far as it can go
/// towards `wanted` (which may be negative): one linear program, by the simplex method with upper
/// bounds. The changes are feasible even where `wanted` is not reached.
std::vector<double> cheapestMove(const std::vector<Movable>& movables,
                                 const std::vector<Balance>& balances, std::size_t which,
                                 double wanted);

} // namespace gk::reports
