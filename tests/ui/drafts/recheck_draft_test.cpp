#include "followup/checks.h"
#include "ui/drafts/recheck_draft.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace gk;
using dentition::Surface;
using dentition::SurfaceSet;
using followup::test::id;

namespace {

session::EarlierPlacement sealed(int iso, SurfaceSet surfaces, base::Date on, std::uint64_t number,
                                 chairside::PlacementType type = chairside::PlacementType::fresh) {
  auto placement = followup::test::placement(iso);
  placement.surfaces = surfaces;
  placement.type = type;
  base::Stamp stamp{id<base::EntryId>(number), id<base::LaptopId>(99), 1, {}, {}, {}, {}};
  return {{id<chairside::PlacementId>(number), stamp, placement}, on, "Cobble Lantern", {}};
}

/// As the session gives them: by date, each with what nothing was sealed over since.
std::vector<session::EarlierPlacement> given(std::vector<session::EarlierPlacement> placed) {
  for (std::size_t i = 0; i < placed.size(); ++i)
    placed[i].left = session::surfacesLeft(placed, i);
  return placed;
}

std::vector<chairside::PlacementId> asked(const std::vector<session::EarlierPlacement>& placed,
                                          roster::DayId today = id<roster::DayId>(50)) {
  std::vector<chairside::PlacementId> ids;
  for (const auto& one : ui::toRecheck(given(placed), today))
    ids.push_back(one.placement.id);
  return ids;
}

} // namespace

TEST_CASE("After a reseal of one surface the chair asks of each surface's newest sealant",
          "[case-459][case-487]") {
  using chairside::PlacementType;
  const auto first = followup::test::day(2025, 10, 14);
  const auto later = followup::test::day(2025, 11, 13);
  const SurfaceSet both{Surface::occlusal, Surface::buccalPit};
  const auto old = sealed(36, both, first, 1);
  const auto pit = sealed(36, {Surface::buccalPit}, later, 2, PlacementType::reseal);
  CHECK(asked({old, pit}) == std::vector{old.placement.id, pit.placement.id});
  const auto all = sealed(36, both, later, 3, PlacementType::reseal);
  CHECK(asked({old, all}) == std::vector{all.placement.id});
  // The two surfaces one after the other: nothing of the first is left.
  const auto chewing = sealed(36, {Surface::occlusal}, followup::test::day(2025, 12, 1), 4);
  CHECK(asked({old, pit, chewing}) == std::vector{pit.placement.id, chewing.placement.id});
  const auto repair = sealed(36, both, later, 5, PlacementType::repair);
  CHECK(asked({old, repair}) == std::vector{old.placement.id});
  const auto other = sealed(46, both, later, 6);
  CHECK(asked({old, other}) == std::vector{old.placement.id, other.placement.id});
}

TEST_CASE("A check of a sealant in part sealed again is answered for what is left of it",
          "[case-487]") {
  const SurfaceSet both{Surface::occlusal, Surface::buccalPit};
  const auto old = sealed(36, both, followup::test::day(2025, 10, 14), 1);
  const auto pit = sealed(36, {Surface::buccalPit}, followup::test::day(2025, 11, 13), 2,
                          chairside::PlacementType::reseal);
  const auto open = ui::toRecheck(given({old, pit}), id<roster::DayId>(50));
  REQUIRE(open.size() == 2);
  ui::RecheckDraft draft(open.front());
  CHECK(draft.surface() == Surface::occlusal);
  draft.answer(followup::Held::whole);
  REQUIRE(draft.isComplete());
  const auto check =
      draft.build(id<roster::ChildId>(1), id<roster::DayId>(50), followup::test::day(2026, 10, 14));
  CHECK(check.occlusal == followup::Held::whole);
  CHECK(check.buccal == followup::Held::notSealed);
  ui::RecheckDraft whole(open.back());
  whole.restIsWhole();
  CHECK(whole.held(Surface::buccalPit) == followup::Held::whole);
  CHECK(whole.held(Surface::occlusal) == followup::Held::notSealed);
}

TEST_CASE("A sealant that was looked at today is not asked of again", "[case-459]") {
  auto old = sealed(36, {Surface::occlusal}, followup::test::day(2025, 10, 14), 1);
  const auto check = followup::test::check(followup::Held::whole);
  old.newest = base::Recorded<followup::RetentionCheck>{id<followup::CheckId>(7),
                                                        old.placement.stamp, check};
  CHECK(asked({old}, check.day).empty());
  CHECK(asked({old}).size() == 1);
}
