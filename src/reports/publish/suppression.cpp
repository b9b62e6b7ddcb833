#include "reports/publish/suppression.h"

#include "base/contract.h"
#include "reports/publish/cheapest_move.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>

namespace gk::reports {

namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
/// Costs of a unit: what is hidden anyway, and a zero, whose hiding says "there may be some".
constexpr double free = 1e-3;
constexpr double dearAsZero = 1e3;

/// What a reader goes by: the numbers alone, or the words that stand for the hidden ones too.
enum class Reading { numbers, words };

/// The values of a cell in the other tables that were found so far.
struct Reached {
  int low;
  int high;
};

std::vector<Balance> balancesOf(const CountSystem& system) {
  std::vector<Balance> out;
  for (const auto& sum : system.sums) {
    out.push_back({{sum.whole, -sum.times}});
    for (const auto part : sum.parts)
      out.back().emplace_back(part, 1);
  }
  return out;
}

/// Hides for each small count in turn what must be hidden for it. Other tables that fit are kept as
/// the range that they give each cell: they go on to fit, since more is hidden and less said as it
/// goes on. So a small count is safe once five values were found for it, each in a table of whole
/// numbers that keeps every sum.
class Suppressor {
 public:
  Suppressor(const CountSystem& system, const SuppressionRule& rule)
      : system_(system), rule_(rule), isHidden_(system.cells.size()), says_(system.cells.size()),
        rates_(system.cells.size()), moves_(system.cells.size(), balancesOf(system)) {
    for (std::size_t i = 0; i < system_.cells.size(); ++i) {
      const auto& cell = system_.cells[i];
      byNumbers_.push_back({cell.value, cell.value});
      byWords_.push_back({cell.value, cell.value});
      if (cell.outAlready) continue;
      const bool small = isTooSmall(cell, rule_);
      if (small) small_.push_back(i);
      isHidden_[i] = small || !cell.printed;
      says_[i] = small && cell.printed && cell.value > 0;
    }
    // Findings, which come last, before participation: what is printed beside hidden findings is
    // worth less.
    std::ranges::reverse(small_);
    for (const auto& [part, whole] : system_.rates) {
      rates_.at(part).push_back(whole);
      rates_.at(whole).push_back(part);
    }
    readBy(Reading::words);
  }

  Suppressed run(Search search) {
    Suppressed out;
    for (const auto cell : small_) {
      if (search == Search::untilLeak && !(out.exposed.empty() && out.narrowed.empty())) break;
      if (protect(cell)) continue;
      unsayBeside(cell);
      if (protect(cell)) continue;
      says_.assign(says_.size(), false);
      readBy(Reading::words);
      if (protect(cell)) continue;
      readBy(Reading::numbers);
      const bool byNumbers = protect(cell);
      readBy(Reading::words);
      // What another term's pages give away by themselves is not this page's to save.
      const auto& at = system_.cells[cell];
      const bool saidTooMuch = at.saidUnder > 0 && at.saidUnder <= rule_.leftOpen();
      if (at.isOfOtherTerm && (!byNumbers || saidTooMuch)) {
        isGivenAway_ = true;
        if (!byNumbers) protectSomewhat(cell);
        continue;
      }
      (byNumbers ? out.narrowed : out.exposed).push_back(cell);
    }
    if (out.exposed.empty() && out.narrowed.empty() && !isGivenAway_) showWhatCan();
    for (std::size_t i = 0; i < system_.cells.size(); ++i)
      out.cells.push_back(!isHidden_[i] ? Showing::number
                          : says_[i]    ? Showing::fewer
                                        : Showing::withheld);
    return out;
  }

 private:
  /// What differs in another table: where, and by how much.
  using OtherTable = std::vector<std::pair<std::size_t, int>>;

  /// Other tables around a cell's value, and what hiding costs them.
  struct Found {
    std::vector<std::vector<int>> tables;
    double cost = 0;
  };

  [[nodiscard]] std::vector<Reached>& reached() {
    return reading_ == Reading::words ? byWords_ : byNumbers_;
  }

  /// As many values as the other pages leave, if they leave fewer than five: this page does not
  /// narrow them further. A reader who assumes less than the relations finds more.
  void protectSomewhat(std::size_t cell) {
    for (int wide = rule_.leftOpen() - 2; wide > 0; --wide)
      for (const auto reading : {Reading::words, Reading::numbers}) {
        readBy(reading);
        const bool isDone = protect(cell, wide);
        readBy(Reading::words);
        if (isDone) return;
      }
  }

  /// Whether five values in a row are possible, at the least cost: so many of them below its own.
  bool protect(std::size_t cell) { return protect(cell, rule_.leftOpen() - 1); }

  bool protect(std::size_t cell, int wide) {
    std::optional<Found> best;
    const int half = wide / 2;
    for (int i = 0; i <= 2 * half + 1; ++i) {
      const int down = half + (i % 2 == 0 ? -i / 2 : (i + 1) / 2);
      if (down < 0 || down > wide) continue;
      auto found = around(cell, down, wide - down);
      if (!found || (best && found->cost >= best->cost)) continue;
      best = std::move(found);
      if (best->cost == 0) break;
    }
    if (!best) return false;
    for (const auto& table : best->tables)
      use(table);
    return true;
  }

  std::optional<Found> around(std::size_t cell, int down, int up) {
    const int value = system_.cells[cell].value;
    const auto& range = reached()[cell];
    Found out;
    for (const auto& [isThere, change] :
         {std::pair(range.low <= value - down, -down), std::pair(range.high >= value + up, up)}) {
      if (isThere) continue;
      auto table = moves_.cheapest(cell, change);
      if (!table) return std::nullopt;
      for (std::size_t i = 0; i < table->size(); ++i)
        if ((*table)[i] != 0 && !isHidden_[i]) out.cost += cost(i);
      out.tables.push_back(*std::move(table));
    }
    return out;
  }

  /// Hides what differs in another table.
  void use(const std::vector<int>& table) {
    OtherTable changes;
    for (std::size_t i = 0; i < table.size(); ++i) {
      if (table[i] == 0) continue;
      changes.emplace_back(i, table[i]);
      if (isHidden_[i]) continue;
      isHidden_[i] = true;
      allow(i);
      for (const auto other : rates_[i])
        allow(other);
    }
    note(changes, byNumbers_);
    if (reading_ == Reading::numbers) return;
    note(changes, byWords_);
    tables_.push_back(std::move(changes));
  }

  void note(const OtherTable& changes, std::vector<Reached>& reached) const {
    for (const auto& [i, change] : changes) {
      const int value = system_.cells[i].value + change;
      reached[i] = {std::min(reached[i].low, value), std::max(reached[i].high, value)};
    }
  }

  /// What was hidden for one small count may no longer be needed after others: the dearest is
  /// tried first. It is shown again where each small count has five values with it fixed.
  void showWhatCan() {
    std::vector<std::pair<double, std::size_t>> others;
    for (std::size_t i = 0; i < system_.cells.size(); ++i)
      if (isHidden_[i] && system_.cells[i].printed && !isTooSmall(system_.cells[i], rule_))
        others.emplace_back(worth(i), i);
    std::ranges::stable_sort(others, std::greater<>(), [](const auto& one) { return one.first; });
    mayHideMore_ = false;
    readBy(Reading::words);
    for (const auto& other : others)
      tryToShow(other.second);
  }

  void tryToShow(std::size_t cell) {
    const auto tables = tables_;
    const auto ranges = byWords_;
    isHidden_[cell] = false;
    allow(cell);
    std::erase_if(tables_, [&](const auto& table) {
      return std::ranges::find(table, cell, [](const auto& one) { return one.first; }) !=
             table.end();
    });
    for (std::size_t i = 0; i < byWords_.size(); ++i)
      byWords_[i] = {system_.cells[i].value, system_.cells[i].value};
    for (const auto& table : tables_)
      note(table, byWords_);
    if (std::ranges::all_of(small_, [&](std::size_t small) { return protect(small); })) return;
    isHidden_[cell] = true;
    allow(cell);
    tables_ = tables;
    byWords_ = ranges;
  }

  void readBy(Reading reading) {
    reading_ = reading;
    for (std::size_t i = 0; i < system_.cells.size(); ++i)
      allow(i);
  }

  void allow(std::size_t i) {
    const auto& cell = system_.cells[i];
    if (cell.outAlready || (!isHidden_[i] && !mayHideMore_))
      moves_.allow(i, {0, 0, 0});
    else
      moves_.allow(i, {cell.value - least(i), most(i) - cell.value, cost(i)});
  }

  [[nodiscard]] double least(std::size_t i) const {
    const auto& cell = system_.cells[i];
    if (reading_ == Reading::numbers) return 0;
    if (says_[i] || cell.saidUnder > 0) return 1;
    if (!cell.printed || cell.value < rule_.threshold()) return 0;
    return isTooSmall(cell, rule_) ? 0 : rule_.threshold();
  }

  [[nodiscard]] double most(std::size_t i) const {
    if (reading_ == Reading::numbers) return endless;
    const int before = system_.cells[i].saidUnder;
    if (says_[i]) return (before > 0 ? std::min(before, rule_.threshold()) : rule_.threshold()) - 1;
    return before > 0 ? before - 1 : endless;
  }

  [[nodiscard]] double cost(std::size_t i) const { return isHidden_[i] ? free : worth(i); }

  /// A count goes with the rates that are built on it. Small schools are hidden before large ones.
  [[nodiscard]] double worth(std::size_t i) const {
    const auto& cell = system_.cells[i];
    if (cell.value == 0) return dearAsZero;
    const auto rates =
        std::ranges::count_if(rates_[i], [&](std::size_t other) { return !isHidden_[other]; });
    return cell.dearness * static_cast<double>(1 + rates) * std::sqrt(cell.value);
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
    readBy(Reading::words);
  }

  const CountSystem& system_;
  const SuppressionRule& rule_;
  std::vector<bool> isHidden_;
  std::vector<bool> says_; ///< "fewer than ..." will stand there
  std::vector<Reached> byNumbers_;
  std::vector<Reached> byWords_;
  std::vector<std::size_t> small_;
  std::vector<std::vector<std::size_t>> rates_; ///< what each cell is a rate with
  std::vector<OtherTable> tables_;              ///< that fit by the words
  Reading reading_ = Reading::words;
  bool mayHideMore_ = true;
  bool isGivenAway_ = false; ///< something, by another term's pages
  Moves moves_;
};

} // namespace

base::Result<SuppressionRule> SuppressionRule::under(int threshold, BySchool bySchool) {
  if (threshold < least)
    return base::Error{base::ErrorCode::numberMalformed,
                       "counts under " + std::to_string(threshold) +
                           " only is too few to suppress; the minimum is " + std::to_string(least)};
  return SuppressionRule(threshold, bySchool);
}

std::string openlyWords(const SuppressionRule& rule) {
  if (rule.bySchool() != BySchool::services) return {};
  return " Who took part (forms back, consented, screened, not screened) is shown as counted, "
         "however few.";
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
