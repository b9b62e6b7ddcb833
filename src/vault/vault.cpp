#include "vault/vault.h"

#include "vault/identity_bytes.h"

#include <algorithm>
#include <string_view>

namespace gk::vault {

namespace {

/// Mixed in as associated data, so that a box made for one purpose never opens for the other.
constexpr std::string_view keyPurpose = "groovekeeper book key 1";
constexpr std::string_view childPurpose = "groovekeeper child 1 ";

crypto::Bytes bytesOf(std::string_view text) {
  return {text.begin(), text.end()};
}

crypto::Bytes boundTo(const base::Uuid& child) {
  crypto::Bytes associated(childPurpose.size() + child.bytes.size());
  const auto rest = std::copy(childPurpose.begin(), childPurpose.end(), associated.begin());
  std::copy(child.bytes.begin(), child.bytes.end(), rest);
  return associated;
}

std::size_t characterCount(const crypto::Secret& text) {
  const auto bytes = text.bytes();
  const auto isFirstByte = [](std::uint8_t byte) { return (byte & 0xC0U) != 0x80U; };
  return static_cast<std::size_t>(std::count_if(bytes.begin(), bytes.end(), isFirstByte));
}

bool hasShape(const WrappedKey& wrapped) {
  return wrapped.salt.size() == crypto::saltSize && wrapped.nonce.size() == crypto::nonceSize &&
         wrapped.box.size() == crypto::Key::size + crypto::tagSize;
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
  if (!hasShape(wrapped))
    return base::Error{base::ErrorCode::vaultDamaged,
                       "the book's wrapped key has parts of the wrong length; restore the book "
                       "from a backup"};
  const crypto::KdfCost cost{.opsLimit = wrapped.opsLimit, .memoryBytes = wrapped.memoryBytes};
  const auto wrapping = crypto::deriveKey(passphrase, wrapped.salt, cost);
  if (!wrapping) return wrapping.error();
  auto opened =
      crypto::open(*wrapping, {.nonce = wrapped.nonce, .box = wrapped.box}, bytesOf(keyPurpose));
  if (!opened)
    return base::Error{base::ErrorCode::vaultWrongPassphrase,
                       "the passphrase does not open this book's names; check capital letters and "
                       "keyboard language and type it again"};
  auto bookKey = crypto::Key::of(*std::move(opened));
  if (!bookKey) return bookKey.error();
  return Vault(*std::move(bookKey));
}

Vault Vault::twin() const {
  auto key = crypto::Key::of(crypto::Secret::copyOf(bookKey_.bytes()));
  base::require(key.has_value(), "a key of the size of a key");
  return Vault(*std::move(key));
}

base::Result<WrappedKey> Vault::rewrap(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                       base::Random& random) const {
  if (characterCount(passphrase) < minPassphraseCharacters)
    return base::Error{base::ErrorCode::callMalformed,
                       "the passphrase is shorter than 8 characters; choose a longer one, such as "
                       "four words"};
  crypto::Bytes salt(crypto::saltSize);
  random.fill(salt);
  const auto wrapping = crypto::deriveKey(passphrase, salt, cost);
  if (!wrapping) return wrapping.error();
  auto sealed = crypto::seal(*wrapping, bookKey_.bytes(), bytesOf(keyPurpose), random);
  return WrappedKey{.salt = std::move(salt),
                    .opsLimit = cost.opsLimit,
                    .memoryBytes = cost.memoryBytes,
                    .nonce = std::move(sealed.nonce),
                    .box = std::move(sealed.box)};
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
