#include "bench/figures.h"
#include "base/text/text.h"
#include "bench/cost.h"

#include <algorithm>
#include <cmath>
#include <iostream>

namespace gk::bench {

namespace {

/// Three digits that count: 0.42, 4.2 thousand as 4200.
std::string shown(double value) {
  const int places = value >= 100 ? 0 : value >= 10 ? 1 : value >= 1 ? 2 : 3;
  return base::fixed(value, places);
}

std::string wordsOf(const Target& target) {
  return (target.keep == Keep::atMost ? "at most " : "at least ") + shown(target.bound);
}

} // namespace

bool Figure::isMet() const {
  if (!target) return true;
  return target->keep == Keep::atMost ? value <= target->bound : value >= target->bound;
}

void Figures::add(Figure figure) {
  // Shown as it comes, since the large sizes take minutes.
  std::cerr << figure.what << ": " << shown(figure.value) << ' ' << figure.unit << '\n';
  figures_.push_back(std::move(figure));
}

void Figures::addCost(const std::string& what, Growth growth, int children, double value,
                      const std::string& unit) {
  costs_.try_emplace(what, Costs{growth, {}}).first->second.byChildren[children] = value;
  add({what + ", " + std::to_string(children) + " children", value, unit, {}});
}

void Figures::addExponents() {
  // A scan of a small logbook is mostly what is there in any of them, so that the exponent errs to
  // the low side; a look-up's 0.2 lets a page more of a tree be read for each ten times the
  // children.
  for (const auto& [what, costs] : costs_) {
    if (costs.byChildren.size() < 2) continue;
    const auto& [smallSize, smallCost] = *costs.byChildren.begin();
    const auto& [largeSize, largeCost] = *costs.byChildren.rbegin();
    add({what + ", exponent of growth", exponentOf(smallSize, smallCost, largeSize, largeCost), "",
         Target{Keep::atMost, costs.growth == Growth::scan ? 1.1 : 0.2}});
  }
}

std::optional<double> Figures::growthOf(const std::string& what) const {
  const auto found = costs_.find(what);
  if (found == costs_.end() || found->second.byChildren.size() < 2) return std::nullopt;
  return found->second.byChildren.rbegin()->second / found->second.byChildren.begin()->second;
}

bool Figures::allMet() const {
  return std::ranges::all_of(figures_, &Figure::isMet);
}

void Figures::print(std::ostream& out) const {
  out << "| | measured | target | |\n|---|---|---|---|\n";
  for (const auto& figure : figures_)
    out << "| " << figure.what << " | " << shown(figure.value)
        << (figure.unit.empty() ? "" : " " + figure.unit) << " | "
        << (figure.target ? wordsOf(*figure.target) : "") << " | "
        << (!figure.target   ? ""
            : figure.isMet() ? "met"
                             : "MISSED")
        << " |\n";
}

} // namespace gk::bench
