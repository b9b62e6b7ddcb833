#pragma once

#include "base/id.h"
#include "base/random.h"
#include "base/result.h"
#include "crypto/derive.h"
#include "crypto/sealed.h"
#include "crypto/secret.h"
#include "vault/identity.h"
#include "vault/pin.h"

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace gk::vault {

/// A child's identity as it lies in the book: a nonce of 24 bytes and a box.
using Sealed = crypto::Sealed;

/// The book key, sealed under a key derived from a passphrase: plain values for the book to keep.
/// A book may keep several, one for each passphrase, such as a recovery phrase in an envelope.
struct WrappedKey {
  std::vector<std::uint8_t> salt;  ///< 16 bytes
  std::int64_t opsLimit;           ///< see crypto::KdfCost
  std::int64_t memoryBytes;        ///< see crypto::KdfCost
  std::vector<std::uint8_t> nonce; ///< 24 bytes
  std::vector<std::uint8_t> box;   ///< 48 bytes

  bool operator==(const WrappedKey&) const = default;
};

struct Created;

/// In characters, not bytes, so that every script has the same rule.
constexpr std::size_t minPassphraseCharacters = 8;

/// An unlocked vault: it holds the book key. Letting it go locks it and wipes the key. It cannot
/// be copied. Checking a passphrase is slow on purpose, see crypto::KdfCost.
class Vault {
 public:
  /// A new random book key. Fails with `callMalformed` when the passphrase is shorter than
  /// `minPassphraseCharacters`; as crypto::deriveKey otherwise.
  static base::Result<Created> create(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                      base::Random& random);

  /// Fails with `vaultWrongPassphrase`; with `vaultDamaged` when `wrapped` has not the shape
  /// above; with `vaultLocked` when memory is short. A wrapped key of the right shape with altered
  /// bytes cannot be told from a wrong passphrase.
  static base::Result<Vault> open(const crypto::Secret& passphrase, const WrappedKey& wrapped);

  /// The same book key under another passphrase; no identity need be sealed anew. The old wrapped
  /// key opens as before until the book drops it. Fails as `create`.
  [[nodiscard]] base::Result<WrappedKey> rewrap(const crypto::Secret& passphrase,
                                                crypto::KdfCost cost, base::Random& random) const;

  /// The same vault once more, for another thread; it is wiped by itself.
  [[nodiscard]] Vault twin() const;

  /// Bound to the child: the box opens for this id alone. Precondition: checkIdentity passes.
  [[nodiscard]] Sealed seal(const base::Uuid& child, const Identity& identity,
                            base::Random& random) const;

  /// Fails with `vaultDamaged` when the box was altered, belongs to another child or was sealed
  /// with another book's key.
  [[nodiscard]] base::Result<Identity> reveal(const base::Uuid& child, const Sealed& sealed) const;

  /// A member's PIN as the book keeps it, bound to her: Argon2id of it, sealed under the book key,
  /// so that whoever has the file alone cannot even guess. Fails as checkPin and crypto::deriveKey.
  [[nodiscard]] base::Result<SealedPin> sealPin(const base::Uuid& member, const crypto::Secret& pin,
                                                crypto::KdfCost cost, base::Random& random) const;
  /// Fails with `vaultDamaged` when it was altered, is another member's, of another book key, or
  /// its cost is above `SealedPin::mostOps` and `mostMemory`.
  [[nodiscard]] base::Result<bool> isPin(const base::Uuid& member, const crypto::Secret& pin,
                                         const SealedPin& sealed) const;

  /// The book key stays, and cannot be read by anybody until `awaken`; nothing else may be asked
  /// meanwhile.
  void sleep() { bookKey_.forbid(); }
  void awaken() { bookKey_.expose(); }

 private:
  explicit Vault(crypto::Key bookKey) : bookKey_(std::move(bookKey)) {}
  crypto::Key bookKey_;
};

/// A new vault and what the book must keep to open it again.
struct Created {
  Vault vault;
  WrappedKey wrapped;
};

} // namespace gk::vault
