#include "estimates/survival/survival_spell.h"

#include "estimates/numbers/checks.h"

#include <algorithm>
#include <string>
#include <vector>

namespace gk::estimates {
namespace {

// Among checks at one time: what ends the spell comes first, and a failure before all.
int rank(SpellState state) {
  switch (state) {
  case SpellState::failed:
    return 0;
  case SpellState::replaced:
  case SpellState::restoredOver:
  case SpellState::crowned:
  case SpellState::extracted:
  case SpellState::shed:
  case SpellState::leftProgram:
    return 1;
  case SpellState::whole:
    return 2;
  case SpellState::cannotTell:
    return 3;
  }
  base::fail("a spell state without a rank");
}

bool ends(SpellState state) {
  return rank(state) < 2;
}

// A sealant that was replaced on sight was seen not to have failed at that time.
bool isSeenWhole(SpellState state) {
  return state == SpellState::whole || state == SpellState::replaced;
}

} // namespace

base::Result<PlacementSpell> spellOf(std::span<const SpellCheck> checks, std::size_t child,
                                     EndReading reading) {
  for (std::size_t i = 0; i < checks.size(); ++i)
    if (auto checked = checkCount("Check " + std::to_string(i + 1) + ": the time since placement",
                                  checks[i].time);
        !checked)
      return checked.error();
  std::vector<SpellCheck> sorted(checks.begin(), checks.end());
  std::stable_sort(sorted.begin(), sorted.end(), [](const SpellCheck& a, const SpellCheck& b) {
    return a.time != b.time ? a.time < b.time : rank(a.state) < rank(b.state);
  });

  PlacementSpell out{
      .spell = {.left = 0, .right = std::nullopt, .child = child, .teeth = 1, .school = 0},
      .end = SpellState::cannotTell,
      .wholeAfterEnd = false,
  };
  double ended = 0;
  for (const auto& [time, state] : sorted) {
    if (ends(out.end)) {
      // At the same time it is what the failure was repaired with.
      if (state == SpellState::whole && time > ended) out.wholeAfterEnd = true;
      continue;
    }
    if (state == SpellState::cannotTell) continue;
    out.end = state;
    ended = time;
    if (isSeenWhole(state)) out.spell.left = time;
    const bool readAsFailure = reading == EndReading::failedByThen && ends(state) &&
                               state != SpellState::leftProgram && state != SpellState::replaced;
    if (state == SpellState::failed || readAsFailure) out.spell.right = time;
  }
  return out;
}

void SpellTally::add(const PlacementSpell& spell) {
  ++counts_.at(static_cast<std::size_t>(spell.end));
  if (spell.wholeAfterEnd) ++wholeAfterEnd_;
}

std::size_t SpellTally::count(SpellState end) const {
  return counts_.at(static_cast<std::size_t>(end));
}

} // namespace gk::estimates
