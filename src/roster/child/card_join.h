#pragma once

#include "base/identity/id.h"
#include "roster/child/child.h"

#include <string>

namespace gk::roster {

using CardJoinId = base::Id<struct CardJoinTag>;

/// Someone said at the desk that two cards are one child's. Taken back where they are not.
struct CardJoin {
  using Key = CardJoinId;
  ChildId child; ///< whose card is kept
  ChildId other;
  bool operator==(const CardJoin&) const = default;
};

} // namespace gk::roster
