#include "reports/suppression.h"

#include "base/contract.h"
#include "reports/cheapest_move.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>

namespace gk::reports {

namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double moved = 1e-6;
/// Costs of a unit: what is hidden anyway, and a nought, whose hiding says "there may be some".
constexpr double free = 1e-3;
constexpr double dearAsNought = 1e5;
/// Tries to make another table one of whole numbers.
constexpr int mostDives = 8;
constexpr int mostTimes = 4;
/// Rows beside a cell's own and the total that are tried first; all, when these do not do.
constexpr std::size_t rowsAtFirst = 14;

/// What a reader goes by: the numbers alone, or the words that stand for the hidden ones too.
enum class Reading { numbers, words };

/// The values of a cell in the other tables that were found so far.
struct Reached {
  double low;
  double high;
};

class Suppressor {
 public:
  Suppressor(const CountSystem& system, const SuppressionRule& rule)
      : system_(system), rule_(rule), isHidden_(system.cells.size()), says_(system.cells.size()) {
    for (std::size_t i = 0; i < system_.cells.size(); ++i) {
      const auto& cell = system_.cells[i];
      const double value = cell.value;
      byNumbers_.push_back({value, value});
      byWords_.push_back({value, value});
      if (cell.outAlready) continue;
      const bool small = isTooSmall(cell, rule_);
      if (small) small_.push_back(i);
      isHidden_[i] = small || !cell.printed;
      says_[i] = small && cell.printed && cell.value > 0;
      rows_.insert(cell.row);
    }
  }

  Suppressed run(Search search) {
    Suppressed out;
    for (const auto cell : small_) {
      if (search == Search::untilLeak && !(out.exposed.empty() && out.narrowed.empty())) break;
      if (protect(cell, Reading::words)) continue;
      unsayBeside(cell);
      if (protect(cell, Reading::words)) continue;
      says_.assign(says_.size(), false);
      if (protect(cell, Reading::words)) continue;
      const bool byNumbers = protect(cell, Reading::numbers);
      // What another term's pages give away by themselves is not this page's to save.
      const auto& at = system_.cells[cell];
      const bool saidTooMuch = at.saidUnder > 0 && at.saidUnder <= rule_.leftOpen();
      if (at.isOfOtherTerm && (!byNumbers || saidTooMuch)) continue;
      (byNumbers ? out.narrowed : out.exposed).push_back(cell);
    }
    for (std::size_t i = 0; i < system_.cells.size(); ++i)
      out.cells.push_back(!isHidden_[i] ? Showing::number
                          : says_[i]    ? Showing::fewer
                                        : Showing::withheld);
    return out;
  }

 private:
  /// Values around the true one where that can be, else those above or below it.
  bool protect(std::size_t cell, Reading reading) {
    const int wide = rule_.leftOpen();
    const int value = system_.cells[cell].value;
    const int below = std::min(wide / 2, std::max(value - 1, 0));
    for (const int down : {below, value == 0 ? 0 : below + 1, wide - 1, 0}) {
      if (isOpen(cell, reading)) return true;
      if (down > 0) reach(cell, -std::min(down, value), reading);
      if (isOpen(cell, reading)) return true;
      if (down < wide - 1) reach(cell, wide - 1 - down, reading);
    }
    return isOpen(cell, reading);
  }

  [[nodiscard]] bool isOpen(std::size_t cell, Reading reading) const {
    const auto& at = reading == Reading::words ? byWords_[cell] : byNumbers_[cell];
    return std::floor(at.high + moved) - std::ceil(at.low - moved) + 1 >= rule_.leftOpen();
  }

  /// Finds the cheapest other table in which the cell differs by `change`, and hides what differs.
  void reach(std::size_t cell, int change, Reading reading) {
    if (change == 0) return;
    if (!reachWithin(cell, change, reading, nearby(cell)))
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
    const auto kept = balances(place);
    const auto changes = wholeMove(movables, kept, place.at(cell), change);
    if (!changes) return false;
    for (std::size_t j = 0; j < cells.size(); ++j) {
      const double by = (*changes)[j];
      if (std::fabs(by) <= moved) continue;
      isHidden_[cells[j]] = true;
      note(cells[j], by, byNumbers_);
      if (reading == Reading::words) note(cells[j], by, byWords_);
    }
    return true;
  }

  /// The cheapest move is one of whole numbers as a rule. Where it is not, some multiple of it may
  /// be, which moves the cell further than asked; else what moves by a fraction is let move less,
  /// one cell at a time.
  static std::optional<std::vector<double>> wholeMove(std::vector<Movable> movables,
                                                      const std::vector<Balance>& balances,
                                                      std::size_t which, int change) {
    for (int dive = 0; dive < mostDives; ++dive) {
      const auto changes = cheapestMove(movables, balances, which, change);
      if (std::fabs(changes[which] - change) > moved) return std::nullopt;
      for (int times = 1; times <= mostTimes; ++times)
        if (auto whole = wholeTimes(changes, times); holds(whole, movables, balances)) return whole;
      const auto worst = std::ranges::max_element(changes, {}, fractionOf);
      auto& movable = movables[static_cast<std::size_t>(worst - changes.begin())];
      (*worst > 0 ? movable.up : movable.down) = std::floor(std::fabs(*worst));
    }
    return std::nullopt;
  }

  static double fractionOf(double value) { return std::fabs(value - std::round(value)); }

  static std::vector<double> wholeTimes(const std::vector<double>& changes, int times) {
    std::vector<double> out;
    out.reserve(changes.size());
    for (const double one : changes)
      out.push_back(std::round(times * one));
    return out;
  }

  static bool holds(const std::vector<double>& changes, const std::vector<Movable>& movables,
                    const std::vector<Balance>& balances) {
    for (std::size_t j = 0; j < changes.size(); ++j)
      if (changes[j] < -movables[j].down - moved || changes[j] > movables[j].up + moved)
        return false;
    return std::ranges::all_of(balances, [&](const Balance& balance) {
      double left = 0;
      for (const auto& [movable, weight] : balance)
        left += weight * changes[movable];
      return std::fabs(left) < moved;
    });
  }

  /// Tables found under one reading stay possible: more is hidden, and less said, as it goes on.
  void note(std::size_t cell, double change, std::vector<Reached>& reached) const {
    auto& at = reached[cell];
    at.low = std::min(at.low, system_.cells[cell].value + change);
    at.high = std::max(at.high, system_.cells[cell].value + change);
  }

  [[nodiscard]] std::vector<Balance>
  balances(const std::map<std::size_t, std::size_t>& place) const {
    std::vector<Balance> out;
    for (const auto& sum : system_.sums) {
      Balance balance;
      if (const auto at = place.find(sum.whole); at != place.end())
        balance.emplace_back(at->second, -sum.times);
      for (const auto part : sum.parts)
        if (const auto at = place.find(part); at != place.end())
          balance.emplace_back(at->second, 1);
      if (!balance.empty()) out.push_back(std::move(balance));
    }
    return out;
  }

  [[nodiscard]] double least(std::size_t i, Reading reading) const {
    const auto& cell = system_.cells[i];
    if (reading == Reading::numbers) return 0;
    if (says_[i] || cell.saidUnder > 0) return 1;
    if (!cell.printed || cell.value < rule_.threshold()) return 0;
    return isTooSmall(cell, rule_) ? 0 : rule_.threshold();
  }

  [[nodiscard]] double most(std::size_t i, Reading reading) const {
    if (reading == Reading::numbers) return endless;
    const int before = system_.cells[i].saidUnder;
    if (says_[i]) return (before > 0 ? std::min(before, rule_.threshold()) : rule_.threshold()) - 1;
    return before > 0 ? before - 1 : endless;
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
  std::vector<Reached> byNumbers_;
  std::vector<Reached> byWords_;
  std::vector<std::size_t> small_;
  std::set<std::size_t> rows_;
};

} // namespace

base::Result<SuppressionRule> SuppressionRule::under(int threshold, BySchool bySchool) {
  if (threshold < least)
    return base::Error{base::ErrorCode::numberMalformed,
                       "counts under " + std::to_string(threshold) +
                           " only is too few to suppress; the minimum is " + std::to_string(least)};
  return SuppressionRule(threshold, bySchool);
}

SuppressionRule SuppressionRule::of(const roster::Program& program) {
  base::require(program.suppressBelow >= least, "a threshold that hides too little");
  return {program.suppressBelow, program.bySchool};
}

int SuppressionRule::leftOpen() const {
  return std::min(threshold_ - 1, least);
}

std::size_t CountSystem::add(CountCell cell) {
  base::require(cell.value >= 0, "a count below zero");
  cells.push_back(cell);
  return cells.size() - 1;
}

std::size_t CountSystem::addRest(CountKind kind, std::size_t whole, std::vector<std::size_t> parts,
                                 int times) {
  int rest = times * cells.at(whole).value;
  for (const auto part : parts)
    rest -= cells.at(part).value;
  const auto place = add({.value = rest,
                          .kind = kind,
                          .row = cells.at(whole).row,
                          .printed = false,
                          .groupIsEmpty = cells.at(whole).value == 0,
                          .isOfOtherTerm = cells.at(whole).isOfOtherTerm});
  parts.push_back(place);
  sums.push_back({whole, std::move(parts), times});
  return place;
}

bool isTooSmall(const CountCell& cell, const SuppressionRule& rule) {
  if (cell.outAlready || cell.kind == CountKind::slack || cell.value >= rule.threshold())
    return false;
  return cell.value > 0 || (cell.kind == CountKind::rest && !cell.groupIsEmpty);
}

Suppressed suppress(const CountSystem& system, const SuppressionRule& rule, Search search) {
  return Suppressor(system, rule).run(search);
}

} // namespace gk::reports
