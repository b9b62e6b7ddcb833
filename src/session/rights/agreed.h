#pragma once

#include "base/identity/entry.h"
#include "session/rights/confirmation.h"

#include <cstdint>
#include <optional>

namespace gk::session {

/// That students whom another logbook lists as erased are to be erased here too.
struct ErasureYes {
  base::By by;
  std::int64_t entries; ///< of them, as the merge asked: another number is asked about again
  OwnPin pin{};
};

/// Who merges, and what that does only once a person has said so; it asks first (store::Agreed).
struct Agreed {
  bool copies = false;
  std::optional<ErasureYes> erasures{};
  bool ahead = false;
  /// Whose act it is: the history says so where the merge brings anything. Every face says it.
  std::optional<base::By> by{};
};

} // namespace gk::session
