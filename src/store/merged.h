#pragma once

#include <cstdint>

namespace gk::store {

/// Where one laptop's history parts, since copies of its disk or of its logbook were both written
/// on: a merge asks first, and joins them only when a person says that it is so.
enum class Copies : std::uint8_t { ask, join };

/// What a merge brought.
struct Merged {
  std::int64_t newEntries;
  std::int64_t erased = 0; ///< entries of students whom either logbook lists as erased
  /// No page of the file keeps bytes of them; false where the file could not be remade.
  bool isForgotten = true;
  std::int64_t lines = 0; ///< of laptops that went on in copies, and have a name of their own now
};

} // namespace gk::store
