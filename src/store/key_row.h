#pragma once

#include "store/connection.h"

#include <cstdint>
#include <optional>
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

/// The key once more, under the recovery code; none where there is no code.
std::optional<KeyRow> recoveryKey(Connection& book);
/// In place of what was there; none takes it away. Inside a transaction.
void keepRecoveryKey(Connection& book, const std::optional<KeyRow>& key);
/// Whether it is as it was written.
bool isRecoveryWhole(Connection& book);

} // namespace gk::store
