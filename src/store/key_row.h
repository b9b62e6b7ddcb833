#pragma once

#include <cstdint>
#include <vector>

namespace gk::store {

/// What the book keeps of its key: opaque here, a vault::WrappedKey to the session.
struct KeyRow {
  std::vector<std::uint8_t> salt;
  std::int64_t passes;
  std::int64_t memoryBytes;
  std::vector<std::uint8_t> nonce;
  std::vector<std::uint8_t> box;
};

} // namespace gk::store
