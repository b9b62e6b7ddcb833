#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace gk::reports {

/// A number that may change by so much down and up, at a cost for each unit.
struct Movable {
  double down;
  double up; ///< may be infinite, as `down`
  double cost;
};

/// Weights of movables whose changes cancel: sum of weight x change = 0.
using Balance = std::vector<std::pair<std::size_t, double>>;

/// Changes of numbers that keep balances, by integer programming (GLPK). The balances stay; what
/// each number may do is said again for each question.
class Moves {
 public:
  Moves(std::size_t movables, std::span<const Balance> balances);
  ~Moves();
  Moves(const Moves&) = delete;
  Moves& operator=(const Moves&) = delete;

  void allow(std::size_t which, const Movable& movable);

  /// The cheapest changes by whole numbers, or nearly, that move `which` by just `wanted`. None
  /// where there are none, and where none was found after so many steps: a count of steps and not
  /// of seconds, so that the same question has the same answer on every machine.
  [[nodiscard]] std::optional<std::vector<int>> cheapest(std::size_t which, int wanted);

 private:
  struct Problem;
  std::unique_ptr<Problem> problem_;
};

} // namespace gk::reports
