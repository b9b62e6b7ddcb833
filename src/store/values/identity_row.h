#pragma once

#include "roster/child/child.h"

#include <cstdint>
#include <vector>

namespace gk::store {

/// All that identifies a child, sealed: the store keeps the box and cannot open it.
struct SealedIdentity {
  using Key = base::Id<struct SealedIdentityTag>;
  roster::ChildId child;
  std::vector<std::uint8_t> nonce; ///< 24 bytes
  std::vector<std::uint8_t> box;
};

} // namespace gk::store
