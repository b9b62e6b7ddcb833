#include "estimates/survival/survival_spell.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <vector>

using namespace gk;
using namespace gk::estimates;

namespace {

PlacementSpell spellFrom(std::vector<SpellCheck> checks,
                         EndReading reading = EndReading::lastWhole) {
  return spellOf(checks, 7, reading).value();
}

} // namespace

TEST_CASE("A sealant fails between the last check that found it whole and the first that did not") {
  const auto found =
      spellFrom({{3, SpellState::whole}, {12, SpellState::whole}, {24, SpellState::failed}});
  CHECK(found.spell.left == 12);
  CHECK(found.spell.right == 24);
  CHECK(found.spell.child == 7);
  CHECK(found.end == SpellState::failed);
  CHECK(!found.wholeAfterEnd);
}

TEST_CASE("A sealant never seen to fail is whole as far as its last check") {
  const auto found = spellFrom({{3, SpellState::whole}, {12, SpellState::whole}});
  CHECK(found.spell.left == 12);
  CHECK(!found.spell.right);
  CHECK(found.end == SpellState::whole);
}

TEST_CASE("A placement without a check that judged it says nothing") {
  CHECK(spellFrom({}).end == SpellState::cannotTell);
  const auto found = spellFrom({{12, SpellState::cannotTell}});
  CHECK(found.spell.left == 0);
  CHECK(!found.spell.right);
  CHECK(found.end == SpellState::cannotTell);
}

TEST_CASE("A check that cannot tell is passed over between others") {
  const auto found =
      spellFrom({{3, SpellState::whole}, {12, SpellState::cannotTell}, {24, SpellState::failed}});
  CHECK(found.spell.left == 3);
  CHECK(found.spell.right == 24);
}

TEST_CASE("A tooth that is gone counts as not yet failed when last seen whole") {
  for (const auto end : {SpellState::restoredOver, SpellState::crowned, SpellState::extracted,
                         SpellState::shed, SpellState::leftProgram}) {
    const auto found = spellFrom({{12, SpellState::whole}, {24, end}});
    CHECK(found.spell.left == 12);
    CHECK(!found.spell.right);
    CHECK(found.end == end);
  }
}

TEST_CASE(
    "In the worst case a tooth that is gone had lost its sealant but a child who left had not") {
  for (const auto end :
       {SpellState::restoredOver, SpellState::crowned, SpellState::extracted, SpellState::shed}) {
    const auto found = spellFrom({{12, SpellState::whole}, {24, end}}, EndReading::failedByThen);
    CHECK(found.spell.left == 12);
    CHECK(found.spell.right == 24);
    CHECK(found.end == end);
  }
  for (const auto end : {SpellState::leftProgram, SpellState::replaced})
    CHECK(!spellFrom({{12, SpellState::whole}, {24, end}}, EndReading::failedByThen).spell.right);
}

TEST_CASE("A sealant replaced before it failed is whole up to its replacement") {
  const auto found = spellFrom({{12, SpellState::whole}, {24, SpellState::replaced}});
  CHECK(found.spell.left == 24);
  CHECK(!found.spell.right);
}

TEST_CASE("A tooth found whole after its sealant failed keeps the failure and is told") {
  const auto found = spellFrom({{12, SpellState::failed}, {24, SpellState::whole}});
  CHECK(found.spell.left == 0);
  CHECK(found.spell.right == 12);
  CHECK(found.wholeAfterEnd);
}

TEST_CASE("At one time a failure rules over the reseal that followed it") {
  const auto found = spellFrom({{12, SpellState::whole}, {12, SpellState::failed}});
  CHECK(found.spell.left == 0);
  CHECK(found.spell.right == 12);
  CHECK(!found.wholeAfterEnd);
}

TEST_CASE("A sealant lost on the day of its placement failed at time zero") {
  const auto found = spellFrom({{0, SpellState::failed}});
  CHECK(found.spell.left == 0);
  CHECK(found.spell.right == 0);
}

TEST_CASE("The order of the checks is of no account") {
  std::vector<SpellCheck> checks{{24, SpellState::failed},
                                 {3, SpellState::whole},
                                 {12, SpellState::whole},
                                 {18, SpellState::cannotTell},
                                 {36, SpellState::whole}};
  const auto first = spellFrom(checks);
  const auto byTime = [](const SpellCheck& a, const SpellCheck& b) { return a.time < b.time; };
  std::sort(checks.begin(), checks.end(), byTime);
  do {
    const auto found = spellFrom(checks);
    CHECK(found.spell.left == first.spell.left);
    CHECK(found.spell.right == first.spell.right);
    CHECK(found.wholeAfterEnd == first.wholeAfterEnd);
  } while (std::next_permutation(checks.begin(), checks.end(), byTime));
}

TEST_CASE("A check before placement or at no time is refused by its place") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double time : {-1.0, nan, infinity}) {
    const std::vector<SpellCheck> checks{{3, SpellState::whole}, {time, SpellState::failed}};
    const auto found = spellOf(checks, 1);
    REQUIRE(!found);
    CHECK(found.error().code == base::ErrorCode::estimateInput);
    CHECK_THAT(found.error().detail, Catch::StartsWith("Check 2: "));
  }
}

TEST_CASE("The tally counts how placements ended") {
  SpellTally tally;
  tally.add(spellFrom({{12, SpellState::failed}, {24, SpellState::whole}}));
  tally.add(spellFrom({{12, SpellState::failed}}));
  tally.add(spellFrom({{12, SpellState::extracted}}));
  tally.add(spellFrom({}));
  CHECK(tally.count(SpellState::failed) == 2);
  CHECK(tally.count(SpellState::extracted) == 1);
  CHECK(tally.count(SpellState::cannotTell) == 1);
  CHECK(tally.count(SpellState::whole) == 0);
  CHECK(tally.wholeAfterEnd() == 1);
}
