#pragma once

#include "store/digest/lines.h"

#include "base/time/clock.h"

#include <string>
#include <vector>

namespace gk::store {

/// What one logbook has of a hand since another copy of it went on apart under the same hand.
struct ForkSide {
  base::LocalInstant since;
  std::int64_t acts = 0;
  std::vector<std::string> children{}; ///< numbers, sorted
};

/// Two different histories of one hand. A merge takes neither for the other.
struct Fork {
  base::LaptopId hand;
  ForkSide here;
  ForkSide there;
};

/// Between the book and the one attached as "other". Throws Trouble.
std::vector<Fork> forksOf(Connection& book, const OwnSchema& own,
                          const std::vector<ForkPoint>& points);

/// What a person reads: since when, how many acts, which students, in each.
std::string sentence(const std::vector<Fork>& forks);

} // namespace gk::store
