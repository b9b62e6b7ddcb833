#pragma once

#include <cstdint>

namespace gk::store {

/// What a merge brought.
struct Merged {
  std::int64_t newEntries;
};

} // namespace gk::store
