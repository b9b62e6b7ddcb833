#pragma once

#include "base/result.h"
#include "crypto/secret.h"

#include <cstdint>
#include <vector>

namespace gk::vault {

/// How long a PIN is, in digits.
constexpr std::size_t shortestPin = 4;
constexpr std::size_t longestPin = 6;

/// Fails with `pinMalformed` unless there are 4 to 6 digits that are not among the first to be
/// guessed: one digit again and again, a run up or down, a pair again and again.
base::Result<base::Done> checkPin(const crypto::Secret& pin);

/// What the book keeps of a PIN: plain values, as WrappedKey.
struct SealedPin {
  /// Bounds of what is looked at, so that a forged book stalls no one: about a second.
  static constexpr std::int64_t mostOps = 8;
  static constexpr std::int64_t mostMemory = std::int64_t{128} << 20;

  std::vector<std::uint8_t> salt;  ///< 16 bytes
  std::int64_t opsLimit;           ///< see crypto::KdfCost
  std::int64_t memoryBytes;        ///< see crypto::KdfCost
  std::vector<std::uint8_t> nonce; ///< 24 bytes
  std::vector<std::uint8_t> box;   ///< 48 bytes

  bool operator==(const SealedPin&) const = default;
};

} // namespace gk::vault
