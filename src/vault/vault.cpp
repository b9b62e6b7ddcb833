#include "vault/vault.h"

#include "vault/identity_bytes.h"

#include <algorithm>
#include <string_view>

namespace gk::vault {

namespace {

/// Mixed in as associated data, so that a box made for one purpose never opens for the other.
constexpr std::string_view keyPurpose = "groovekeeper book key 1";
constexpr std::string_view recoveryPurpose = "groovekeeper book key by recovery code 1";
constexpr std::string_view childPurpose = "groovekeeper child 1 ";

crypto::Bytes boundTo(const base::Uuid& child) {
  crypto::Bytes associated(childPurpose.size() + child.bytes.size());
  const auto rest = std::copy(childPurpose.begin(), childPurpose.end(), associated.begin());
  std::copy(child.bytes.begin(), child.bytes.end(), rest);
  return associated;
}

} // namespace

base::Result<Created> Vault::create(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                    base::Random& random) {
  Vault vault(crypto::Key::random(random));
  auto wrapped = vault.rewrap(passphrase, cost, random);
  if (!wrapped) return wrapped.error();
  return Created{.vault = std::move(vault), .wrapped = *std::move(wrapped)};
}

base::Result<Vault> Vault::open(const crypto::Secret& passphrase, const WrappedKey& wrapped) {
  auto bookKey = unwrapKey(wrapped, passphrase, keyPurpose);
  if (bookKey) return Vault(*std::move(bookKey));
  if (bookKey.error().code != base::ErrorCode::vaultWrongPassphrase) return bookKey.error();
  return base::Error{base::ErrorCode::vaultWrongPassphrase,
                     "the passphrase does not open this book's names; check capital letters and "
                     "keyboard language and type it again"};
}

Vault Vault::twin() const {
  auto key = crypto::Key::of(crypto::Secret::copyOf(bookKey_.bytes()));
  base::require(key.has_value(), "a key of the size of a key");
  return Vault(*std::move(key));
}

base::Result<WrappedKey> Vault::rewrap(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                       base::Random& random) const {
  return wrapKey(bookKey_, passphrase, keyPurpose, cost, random);
}

base::Result<WrappedKey> Vault::wrapForRecovery(const crypto::Secret& code, crypto::KdfCost cost,
                                                base::Random& random) const {
  return wrapKey(bookKey_, code, recoveryPurpose, cost, random);
}

base::Result<Vault> Vault::recover(const crypto::Secret& code, const WrappedKey& wrapped) {
  auto bookKey = unwrapKey(wrapped, code, recoveryPurpose);
  if (bookKey) return Vault(*std::move(bookKey));
  if (bookKey.error().code != base::ErrorCode::vaultWrongPassphrase) return bookKey.error();
  return base::Error{base::ErrorCode::vaultWrongPassphrase,
                     "this recovery code does not open this logbook: it is for another one, or was "
                     "withdrawn or replaced; look for the newest sheet"};
}

Sealed Vault::seal(const base::Uuid& child, const Identity& identity, base::Random& random) const {
  auto plain = encode(identity);
  auto sealed = crypto::seal(bookKey_, plain, boundTo(child), random);
  crypto::wipe(plain);
  return sealed;
}

base::Result<Identity> Vault::reveal(const base::Uuid& child, const Sealed& sealed) const {
  const auto plain = crypto::open(bookKey_, sealed, boundTo(child));
  if (!plain) return plain.error();
  return decode(plain->bytes());
}

} // namespace gk::vault
