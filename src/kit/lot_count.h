#pragma once

#include "base/identity/entry.h"
#include "kit/material.h"

namespace gk::kit {

using LotCountId = base::Id<struct LotCountTag>;

/// Packages of a lot at the end of a day, in whatever the program counts: tips, bottles, doses.
struct LotCount {
  using Key = LotCountId;
  base::DayId day;
  LotId lot;
  int opened = 0;            ///< on that day
  std::optional<int> left{}; ///< unopened and opened ones; zero closes the lot
  bool operator==(const LotCount&) const = default;
};

/// Fails with `numberMalformed` for a count below zero or beyond any supply.
base::Result<base::Done> checkLotCount(const LotCount& count);

} // namespace gk::kit
