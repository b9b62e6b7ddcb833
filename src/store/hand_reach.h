#pragma once

#include "base/identity/entry.h"
#include "base/time/clock.h"

#include <cstdint>

namespace gk::store {

/// How far a laptop's writing goes in one book.
struct HandReach {
  base::LaptopId laptop;
  std::int64_t sequence; ///< of its newest row
  std::int64_t acts;
  base::LocalInstant last; ///< when its newest row was written
};

/// A laptop's writing from where copies of its disk, or of its logbook, were both gone on with.
struct CopiedLine {
  base::LaptopId name;       ///< of the line
  base::LaptopId copiedFrom; ///< the laptop
  base::LocalInstant since;
  std::int64_t acts; ///< up to where it parts once more
};

} // namespace gk::store
