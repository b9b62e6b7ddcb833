#pragma once

#include "base/random.h"
#include "base/result.h"
#include "crypto/secret.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace gk::crypto {

using Bytes = std::vector<std::uint8_t>;

/// 24 bytes, drawn at random for each box; so long that a repeat need not be feared
/// (draft-irtf-cfrg-xchacha section 1).
constexpr std::size_t nonceSize = 24;
/// How much longer a box is than what is in it.
constexpr std::size_t tagSize = 16;

/// Ciphertext with its tag at the end, and the nonce it was made with. Both may lie open.
struct Sealed {
  Bytes nonce;
  Bytes box;

  bool operator==(const Sealed&) const = default;
};

/// XChaCha20-Poly1305. `associated` is not stored, but must be the same again to open.
Sealed seal(const Key& key, std::span<const std::uint8_t> plain,
            std::span<const std::uint8_t> associated, base::Random& random);

/// Fails with `vaultDamaged` when key, nonce, box or `associated` is not that of the sealing.
base::Result<Secret> open(const Key& key, const Sealed& sealed,
                          std::span<const std::uint8_t> associated);

} // namespace gk::crypto
