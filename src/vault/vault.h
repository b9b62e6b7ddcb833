#pragma once

#include "base/identity/id.h"
#include "base/random.h"
#include "base/result.h"
#include "crypto/derive.h"
#include "crypto/sealed.h"
#include "crypto/secret.h"
#include "vault/identity.h"
#include "vault/pin.h"
#include "vault/wrapping.h"

#include <utility>
#include <vector>

namespace gk::vault {

/// A child's identity as it lies in the book: a nonce of 24 bytes and a box.
using Sealed = crypto::Sealed;

/// Which key of the names it is: of which book, and the name that the record of its replacing gives
/// it (docs/decisions/0014-replacing-the-key.md). The one that a book begins with has no name.
struct KeyName {
  base::Uuid book{};
  base::Uuid key{};

  bool operator==(const KeyName&) const = default;
};

/// A member, for whom the book key is sealed under a key that her own passphrase gives.
struct KeyOwner {
  base::Uuid member{}; ///< as she was entered
  crypto::Bytes publicKey{};
};

/// A key of the names that another took the place of, sealed under that.
struct SealedEarlier {
  base::Uuid name;
  crypto::Sealed sealed;
};

struct Created;
struct Replaced;

/// An unlocked vault: it holds the book key, and those before it. Letting it go locks it and wipes
/// them. It cannot be copied. Checking a passphrase is slow on purpose, see crypto::KdfCost.
class Vault {
 public:
  Vault(Vault&&) noexcept = default;
  Vault& operator=(Vault&&) noexcept = default;
  Vault(const Vault&) = delete;
  Vault& operator=(const Vault&) = delete;
  ~Vault() = default;

  /// A new random book key. Fails with `callMalformed` when the passphrase is shorter than
  /// `minPassphraseCharacters`; as crypto::deriveKey otherwise.
  static base::Result<Created> create(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                      base::Random& random);

  /// Fails with `vaultWrongPassphrase`; with `vaultDamaged` when `wrapped` has not the shape
  /// above; with `vaultLocked` when memory is short. A wrapped key of the right shape with altered
  /// bytes, or of another name, cannot be told from a wrong passphrase.
  static base::Result<Vault> open(const crypto::Secret& passphrase, const WrappedKey& wrapped,
                                  const KeyName& name = {});

  /// The same book key under another passphrase; no identity need be sealed again. The old wrapped
  /// key opens as before until the book drops it. Fails as `create`.
  [[nodiscard]] base::Result<WrappedKey> rewrap(const crypto::Secret& passphrase,
                                                crypto::KdfCost cost, base::Random& random) const;

  /// The same vault once more, for another thread; it is wiped by itself.
  [[nodiscard]] Vault twin() const;
  /// The same under a recovery code (base/text/printed_code.h), which opens nothing that a
  /// passphrase opens, nor the other way around.
  [[nodiscard]] base::Result<WrappedKey>
  wrapForRecovery(const crypto::Secret& code, crypto::KdfCost cost, base::Random& random) const;
  /// Fails as `open`.
  static base::Result<Vault> recover(const crypto::Secret& code, const WrappedKey& wrapped,
                                     const KeyName& name = {});

  /// The same under what a member's own passphrase gives (vault/signer.h): it opens for her, this
  /// book and this key alone.
  [[nodiscard]] crypto::Sealed wrapFor(const crypto::Key& opening, const base::Uuid& book,
                                       const KeyOwner& owner, base::Random& random) const;
  /// Fails with `vaultDamaged`.
  static base::Result<Vault> openFor(const crypto::Key& opening, const KeyName& name,
                                     const KeyOwner& owner, const crypto::Sealed& sealed);

  /// A new random book key in the place of this one, and each of these sealed under it. What was
  /// sealed stays as it is and opens with the new vault; what the new one seals opens with no
  /// earlier key.
  [[nodiscard]] Replaced replaced(const KeyName& next, base::Random& random) const;
  /// The earlier key too, where it was sealed under the key of that name, which is here; whether it
  /// was.
  bool learn(const KeyName& by, const SealedEarlier& earlier);
  /// Those of `other` too, after its own: it seals as before.
  void take(const Vault& other);
  /// The one that seals.
  [[nodiscard]] const KeyName& name() const { return keys_.front().name; }
  [[nodiscard]] bool holds(const base::Uuid& key) const;

  /// Bound to the child: the box opens for this id alone. Precondition: checkIdentity passes.
  [[nodiscard]] Sealed seal(const base::Uuid& child, const Identity& identity,
                            base::Random& random) const;

  /// Fails with `vaultDamaged` when the box was altered, belongs to another child or was sealed
  /// with a key that is not here.
  [[nodiscard]] base::Result<Identity> reveal(const base::Uuid& child, const Sealed& sealed) const;

  /// Bytes of a file that lies outside of the book; `head` is in clear before them.
  [[nodiscard]] crypto::Sealed sealFile(std::string_view head, std::string_view plain,
                                        base::Random& random) const;
  /// Fails with `vaultDamaged` when head or box is not that of the sealing, or of another key.
  [[nodiscard]] base::Result<crypto::Secret> openFile(std::string_view head,
                                                      const crypto::Sealed& sealed) const;

  /// A member's PIN as the book keeps it, bound to her: Argon2id of it, sealed under the book key,
  /// so that whoever has the file alone cannot even guess. Fails as checkPin and crypto::deriveKey.
  [[nodiscard]] base::Result<SealedPin> sealPin(const base::Uuid& member, const crypto::Secret& pin,
                                                crypto::KdfCost cost, base::Random& random) const;
  /// Fails with `vaultDamaged` when it was altered, is another member's, of another book key, or
  /// its cost is above `SealedPin::mostOps` and `mostMemory`.
  [[nodiscard]] base::Result<bool> isPin(const base::Uuid& member, const crypto::Secret& pin,
                                         const SealedPin& sealed) const;

  /// Whether it could be held against a PIN at all; fails as isPin.
  [[nodiscard]] base::Result<base::Done> opensPin(const base::Uuid& member,
                                                  const SealedPin& sealed) const;

  /// The keys stay, and cannot be read by anybody until `awaken`; nothing else may be asked
  /// meanwhile.
  void sleep();
  void awaken();

 private:
  struct Named {
    KeyName name;
    crypto::Key key;
  };
  Vault(KeyName name, crypto::Key key);
  [[nodiscard]] const crypto::Key& seals() const { return keys_.front().key; }
  [[nodiscard]] base::Result<crypto::Secret> openPin(const base::Uuid& member,
                                                     const SealedPin& sealed) const;
  /// By whichever key it was sealed with: each box is tried, since none says its key.
  [[nodiscard]] base::Result<crypto::Secret> openBox(const Sealed& sealed,
                                                     const crypto::Bytes& bound) const;

  std::vector<Named> keys_; ///< the one that seals first
};

struct Replaced {
  Vault vault;
  std::vector<SealedEarlier> earlier;
};

/// A new vault and what the book must keep to open it again.
struct Created {
  Vault vault;
  WrappedKey wrapped;
};

} // namespace gk::vault
