#pragma once

#include "base/clock.h"
#include "base/entry.h"

#include <cstdint>

namespace gk::store {

/// How far a laptop's writing goes in one book.
struct HandReach {
  base::LaptopId laptop;
  std::int64_t sequence; ///< of its newest row
  std::int64_t acts;
  base::LocalInstant last; ///< when its newest row was written
};

} // namespace gk::store
