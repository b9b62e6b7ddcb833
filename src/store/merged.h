#pragma once

#include <cstdint>

namespace gk::store {

/// What a merge brought.
struct Merged {
  std::int64_t newEntries;
  std::int64_t erased = 0; ///< entries of students whom either logbook lists as erased
};

} // namespace gk::store
