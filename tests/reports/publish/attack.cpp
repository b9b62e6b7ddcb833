#include "reports/publish/attack.h"

#include "reports/publish/cheapest_move.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gk::test {

namespace {

using reports::CountSystem;
using reports::Showing;
using reports::Suppressed;
using reports::SuppressionRule;

constexpr int reach = 16; ///< values tried on each side
constexpr double endless = std::numeric_limits<double>::infinity();

std::vector<reports::Balance> balancesOf(const CountSystem& system) {
  std::vector<reports::Balance> out;
  for (const auto& sum : system.sums) {
    out.push_back({{sum.whole, -sum.times}});
    for (const auto part : sum.parts)
      out.back().emplace_back(part, 1);
  }
  return out;
}

class Attacker {
 public:
  Attacker(const CountSystem& system, const Suppressed& shown, const SuppressionRule& rule,
           bool believesWords)
      : system_(system), shown_(shown), rule_(rule), believesWords_(believesWords),
        moves_(system.cells.size(), balancesOf(system)) {
    for (std::size_t i = 0; i < system.cells.size(); ++i) {
      const double value = system.cells[i].value;
      moves_.allow(i, {value - least(i), most(i) - value, 1});
    }
  }

  [[nodiscard]] bool canBe(std::size_t cell, int value) {
    const int now = system_.cells[cell].value;
    if (value == now) return true;
    const auto changes = moves_.cheapest(cell, value - now);
    if (!changes) return false;
    std::vector<double> other;
    for (std::size_t i = 0; i < changes->size(); ++i)
      other.push_back(system_.cells[i].value + (*changes)[i]);
    return other[cell] == value && agrees(other);
  }

 private:
  [[nodiscard]] bool isShown(std::size_t i) const {
    const auto& cell = system_.cells[i];
    return cell.outAlready || (cell.printed && shown_.cells[i] == Showing::number);
  }

  [[nodiscard]] double least(std::size_t i) const {
    const auto& cell = system_.cells[i];
    if (isShown(i)) return cell.value;
    if (!believesWords_ || !cell.printed) return 0;
    if (shown_.cells[i] == Showing::fewer) return 1;
    const bool isBig = cell.value >= rule_.threshold();
    return isBig ? rule_.threshold() : 0;
  }

  [[nodiscard]] double most(std::size_t i) const {
    if (isShown(i)) return system_.cells[i].value;
    const bool isSaid = believesWords_ && shown_.cells[i] == Showing::fewer;
    return isSaid ? rule_.threshold() - 1 : endless;
  }

  [[nodiscard]] bool agrees(const std::vector<double>& other) const {
    for (std::size_t i = 0; i < other.size(); ++i)
      if (other[i] < least(i) || other[i] > most(i)) return false;
    for (const auto& sum : system_.sums) {
      double left = sum.times * other[sum.whole];
      for (const auto part : sum.parts)
        left -= other[part];
      if (left != 0) return false;
    }
    return true;
  }

  const CountSystem& system_;
  const Suppressed& shown_;
  const SuppressionRule& rule_;
  bool believesWords_;
  reports::Moves moves_;
};

} // namespace

std::vector<std::string> attack(const CountSystem& system, const Suppressed& shown,
                                const SuppressionRule& rule) {
  std::vector<std::string> found;
  Attacker byNumbers(system, shown, rule, false);
  Attacker byWords(system, shown, rule, true);
  for (std::size_t i = 0; i < system.cells.size(); ++i) {
    const auto& cell = system.cells[i];
    if (!reports::isTooSmall(cell, rule)) continue;
    const auto name = "cell " + std::to_string(i) + " of " + std::to_string(cell.value);
    if (cell.printed && shown.cells[i] == Showing::number) found.push_back(name + " is shown");
    for (auto* attacker : {&byNumbers, &byWords}) {
      int low = cell.value;
      int high = cell.value;
      for (int value = std::max(0, cell.value - reach); value <= cell.value + reach; ++value) {
        if (!attacker->canBe(i, value)) continue;
        low = std::min(low, value);
        high = std::max(high, value);
      }
      if (high - low + 1 < rule.leftOpen())
        found.push_back(name + " is in " + std::to_string(low) + " to " + std::to_string(high));
    }
  }
  return found;
}

} // namespace gk::test
