#pragma once

#include "base/random.h"
#include "base/result.h"
#include "crypto/derive.h"
#include "crypto/secret.h"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace gk::vault {

/// A key, sealed under one that is derived from a passphrase: plain values for the book to keep.
struct WrappedKey {
  std::vector<std::uint8_t> salt;  ///< 16 bytes
  std::int64_t opsLimit;           ///< see crypto::KdfCost
  std::int64_t memoryBytes;        ///< see crypto::KdfCost
  std::vector<std::uint8_t> nonce; ///< 24 bytes
  std::vector<std::uint8_t> box;   ///< 48 bytes

  bool operator==(const WrappedKey&) const = default;
};

/// In characters, not bytes, so that every script has the same rule.
constexpr std::size_t minPassphraseCharacters = 8;

/// Fails with `callMalformed` when it is shorter than `minPassphraseCharacters`.
base::Result<base::Done> checkPassphrase(const crypto::Secret& passphrase);

/// `purpose` says whose key it is and what for; it must be the same again to unwrap, so a wrapped
/// key that was put in another's place does not open. Fails with `callMalformed` when the
/// passphrase is shorter than `minPassphraseCharacters`, and as crypto::deriveKey.
base::Result<WrappedKey> wrapKey(const crypto::Key& key, const crypto::Secret& passphrase,
                                 std::string_view purpose, crypto::KdfCost cost,
                                 base::Random& random);

/// Fails with `vaultWrongPassphrase`; with `vaultDamaged` when `wrapped` has not the shape above;
/// with `vaultLocked` when memory is short. A wrapped key of the right shape with altered bytes
/// cannot be told from a wrong passphrase.
base::Result<crypto::Key> unwrapKey(const WrappedKey& wrapped, const crypto::Secret& passphrase,
                                    std::string_view purpose);

} // namespace gk::vault
