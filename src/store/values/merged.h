#pragma once

#include "store/values/act_stamp.h"

#include <cstdint>
#include <optional>

namespace gk::store {

/// Who merges, and what that does only once a person has said so; it asks first.
struct Agreed {
  /// Where one laptop's history parts, since copies of its disk or of its logbook were both written
  /// on: both are joined.
  bool copies = false;
  /// Where the other logbook lists students as erased whose records are here: how many entries of
  /// them go, as was asked. It is the one thing that a merge takes out, and whoever can write a
  /// logbook can list it.
  std::optional<std::int64_t> erasures{};
  /// Where the other logbook has entries of days to come: a laptop's clock was wrong, and they
  /// count as the later word.
  bool ahead = false;
  /// Whose act the merge is: where it brings anything, an entry in the same transaction says so.
  std::optional<ActStamp> noted{};
};

/// What a merge brought.
struct Merged {
  std::int64_t newEntries;
  std::int64_t erased = 0; ///< entries of students whom either logbook lists as erased
  /// No page of the file keeps bytes of them; false where the file could not be remade.
  bool isForgotten = true;
  std::int64_t lines = 0; ///< of laptops that went on in copies, and have a name of their own now
};

} // namespace gk::store
