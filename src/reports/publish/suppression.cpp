#include "reports/publish/suppression.h"

#include "base/contract.h"
#include "reports/publish/cheapest_move.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace gk::reports {

namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double moved = 1e-6;
/// Costs of a unit: what is hidden anyway, and a nought, whose hiding says "there may be some".
constexpr double free = 1e-3;
constexpr double dearAsNought = 1e5;
/// Rows beside a cell's own and the total that are tried first; all, when these do not do.
constexpr std::size_t rowsAtFirst = 14;

/// What a reader goes by: the numbers alone, or the words that stand for the hidden ones too.
enum class Reading { numbers, words };

class Suppressor {
 public:
  Suppressor(const CountSystem& system, const SuppressionRule& rule)
      : system_(system), rule_(rule), isHidden_(system.cells.size()), says_(system.cells.size()) {
    for (std::size_t i = 0; i < system_.cells.size(); ++i) {
      const auto& cell = system_.cells[i];
      if (cell.outAlready) continue;
      const bool small = isTooSmall(cell, rule_);
      if (small) small_.push_back(i);
      isHidden_[i] = small || !cell.printed;
      says_[i] = small && cell.printed && cell.value > 0;
      rows_.insert(cell.row);
    }
  }

  Suppressed run() {
    Suppressed out;
    for (const auto cell : small_) {
      if (!protect(cell, Reading::numbers)) out.exposed.push_back(cell);
      if (protect(cell, Reading::words)) continue;
      unsayBeside(cell);
      if (protect(cell, Reading::words)) continue;
      says_.assign(says_.size(), false);
      if (!protect(cell, Reading::words)) out.narrowed.push_back(cell);
    }
    for (std::size_t i = 0; i < system_.cells.size(); ++i)
      out.cells.push_back(!isHidden_[i] ? Showing::number
                          : says_[i]    ? Showing::fewer
                                        : Showing::withheld);
    return out;
  }

 private:
  bool protect(std::size_t cell, Reading reading) {
    const auto [low, high] = mustReach(cell, reading);
    const int value = system_.cells[cell].value;
    const bool down = low >= value || reach(cell, low - value, reading);
    const bool up = high <= value || reach(cell, high - value, reading);
    return down && up;
  }

  /// The range of values that must stay possible.
  [[nodiscard]] std::pair<int, int> mustReach(std::size_t cell, Reading reading) const {
    const int last = rule_.threshold() - 1;
    if (reading == Reading::numbers) return {0, last};
    const int wide = rule_.leftOpenByWords();
    const int low = std::clamp(system_.cells[cell].value - wide / 2, 1, last - wide + 1);
    return {std::min(low, system_.cells[cell].value), low + wide - 1};
  }

  /// Finds the cheapest other table in which the cell differs by `change`, and hides what differs.
  bool reach(std::size_t cell, int change, Reading reading) {
    return reachWithin(cell, change, reading, nearby(cell)) ||
           reachWithin(cell, change, reading, rows_);
  }

  [[nodiscard]] std::set<std::size_t> nearby(std::size_t cell) const {
    const auto own = system_.cells[cell].row;
    std::set<std::size_t> rows{own, system_.totalRow};
    auto next = rows_.upper_bound(own);
    for (std::size_t i = 0; i < rows_.size() && rows.size() < rowsAtFirst + 2; ++i, ++next) {
      if (next == rows_.end()) next = rows_.begin();
      rows.insert(*next);
    }
    return rows;
  }

  bool reachWithin(std::size_t cell, int change, Reading reading,
                   const std::set<std::size_t>& rows) {
    std::vector<std::size_t> cells;
    std::map<std::size_t, std::size_t> place;
    std::vector<Movable> movables;
    for (std::size_t i = 0; i < system_.cells.size(); ++i) {
      if (system_.cells[i].outAlready || !rows.contains(system_.cells[i].row)) continue;
      place[i] = cells.size();
      cells.push_back(i);
      movables.push_back({system_.cells[i].value - least(i, reading),
                          most(i, reading) - system_.cells[i].value, cost(i)});
    }
    const auto changes = cheapestMove(movables, balances(place), place.at(cell), change);
    if (std::fabs(changes[place.at(cell)] - change) > moved) return false;
    for (std::size_t j = 0; j < cells.size(); ++j)
      if (std::fabs(changes[j]) > moved) isHidden_[cells[j]] = true;
    return true;
  }

  [[nodiscard]] std::vector<Balance>
  balances(const std::map<std::size_t, std::size_t>& place) const {
    std::vector<Balance> out;
    for (const auto& sum : system_.sums) {
      Balance balance;
      if (const auto at = place.find(sum.whole); at != place.end())
        balance.emplace_back(at->second, -1);
      for (const auto part : sum.parts)
        if (const auto at = place.find(part); at != place.end())
          balance.emplace_back(at->second, 1);
      if (!balance.empty()) out.push_back(std::move(balance));
    }
    return out;
  }

  [[nodiscard]] double least(std::size_t i, Reading reading) const {
    const auto& cell = system_.cells[i];
    if (reading == Reading::numbers || !cell.printed) return 0;
    if (says_[i]) return 1;
    if (isTooSmall(cell, rule_) || cell.value < rule_.threshold()) return 0;
    return rule_.threshold();
  }

  [[nodiscard]] double most(std::size_t i, Reading reading) const {
    return reading == Reading::words && says_[i] ? rule_.threshold() - 1 : endless;
  }

  [[nodiscard]] double cost(std::size_t i) const {
    const auto& cell = system_.cells[i];
    if (isHidden_[i]) return free;
    return cell.value == 0 ? dearAsNought : cell.dearness * cell.value;
  }

  /// In a sum where every part says how small it is, the parts bound each other.
  void unsayBeside(std::size_t cell) {
    for (const auto& sum : system_.sums) {
      const bool isIn = sum.whole == cell || std::ranges::find(sum.parts, cell) != sum.parts.end();
      if (!isIn) continue;
      says_[sum.whole] = false;
      for (const auto part : sum.parts)
        says_[part] = false;
    }
  }

  const CountSystem& system_;
  const SuppressionRule& rule_;
  std::vector<bool> isHidden_;
  std::vector<bool> says_; ///< "fewer than ..." will stand there
  std::vector<std::size_t> small_;
  std::set<std::size_t> rows_;
};

} // namespace

base::Result<SuppressionRule> SuppressionRule::under(int threshold) {
  if (threshold < least)
    return base::Error{base::ErrorCode::numberMalformed,
                       "counts under " + std::to_string(threshold) +
                           " only is too few to suppress; the minimum is " + std::to_string(least)};
  return SuppressionRule(threshold);
}

int SuppressionRule::leftOpenByWords() const {
  return std::min(threshold_ - 1, least);
}

std::size_t CountSystem::add(CountCell cell) {
  base::require(cell.value >= 0, "a count below zero");
  cells.push_back(cell);
  return cells.size() - 1;
}

std::size_t CountSystem::addRest(CountKind kind, std::size_t whole,
                                 std::vector<std::size_t> parts) {
  int rest = cells.at(whole).value;
  for (const auto part : parts)
    rest -= cells.at(part).value;
  const auto place = add({.value = rest,
                          .kind = kind,
                          .row = cells.at(whole).row,
                          .printed = false,
                          .groupIsEmpty = cells.at(whole).value == 0});
  parts.push_back(place);
  sums.push_back({whole, std::move(parts)});
  return place;
}

bool isTooSmall(const CountCell& cell, const SuppressionRule& rule) {
  if (cell.outAlready || cell.kind == CountKind::slack || cell.value >= rule.threshold())
    return false;
  return cell.value > 0 || (cell.kind == CountKind::rest && !cell.groupIsEmpty);
}

Suppressed suppress(const CountSystem& system, const SuppressionRule& rule) {
  return Suppressor(system, rule).run();
}

} // namespace gk::reports
