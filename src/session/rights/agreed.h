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

/// What a merge does only once a person has said so; it asks first (store::Agreed).
struct Agreed {
  bool copies = false;
  std::optional<ErasureYes> erasures{};
  bool ahead = false;
};

} // namespace gk::session
