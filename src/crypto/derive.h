#pragma once

#include "base/result.h"
#include "crypto/secret.h"

#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace gk::crypto {

/// What one guess at a passphrase costs.
struct KdfCost {
  std::int64_t opsLimit;    ///< passes over the memory, 1-16
  std::int64_t memoryBytes; ///< 8 KiB to 256 MiB; both together at most 1 GiB passed over

  auto operator<=>(const KdfCost&) const = default;

  /// For real books: 64 MiB and 3 passes, the second recommended option of RFC 9106 section 4 but
  /// on one lane; about a tenth of a second on a 2020s desktop core.
  static KdfCost interactive();
  /// The least that Argon2 allows, for tests and demonstrations alone.
  static KdfCost cheapest();

  /// Whether within the bounds above. The upper ones are ours: a forged file must not be able to
  /// stall the laptop that opens it.
  [[nodiscard]] bool isAllowed() const;
};

constexpr std::size_t saltSize = 16;

/// Argon2id version 1.3 (RFC 9106) on one lane. Fails with `vaultDamaged` when the salt has not
/// `saltSize` bytes or the cost is not allowed, with `vaultLocked` when memory is short.
base::Result<Key> deriveKey(const Secret& passphrase, std::span<const std::uint8_t> salt,
                            KdfCost cost);

/// Another key for each purpose, from one that is never used itself: BLAKE2b-256 of the purpose,
/// keyed (RFC 7693 section 2.9). Neither tells anything of the other.
Key keyFor(const Key& from, std::string_view purpose);

} // namespace gk::crypto
