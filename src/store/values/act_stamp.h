#pragma once

#include "base/identity/entry.h"

#include <string>
#include <string_view>

namespace gk::store {

/// What every row of one act shares.
struct ActStamp {
  base::By by;
  base::LocalInstant at;
  std::string_view verb; ///< what was done, as the session names it; outlives the act
};

/// What a row stands in the place of.
struct Replaced {
  base::EntryId thing;
  base::EntryId entry;
  std::string reason;
};

} // namespace gk::store
