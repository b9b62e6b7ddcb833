#include "crypto/sealed.h"

#include "crypto/ready.h"

#include <sodium.h>

#include <string>

namespace gk::crypto {

static_assert(Key::size == crypto_aead_xchacha20poly1305_ietf_KEYBYTES);
static_assert(nonceSize == crypto_aead_xchacha20poly1305_ietf_NPUBBYTES);
static_assert(tagSize == crypto_aead_xchacha20poly1305_ietf_ABYTES);

Sealed seal(const Key& key, std::span<const std::uint8_t> plain,
            std::span<const std::uint8_t> associated, base::Random& random) {
  makeReady();
  Sealed sealed{.nonce = Bytes(nonceSize), .box = Bytes(plain.size() + tagSize)};
  random.fill(sealed.nonce);
  unsigned long long written = 0;
  const int failed = crypto_aead_xchacha20poly1305_ietf_encrypt(
      sealed.box.data(), &written, plain.data(), plain.size(), associated.data(), associated.size(),
      nullptr, sealed.nonce.data(), key.bytes().data());
  base::require(failed == 0 && written == sealed.box.size(), "sealing gave another length");
  return sealed;
}

base::Result<Secret> open(const Key& key, const Sealed& sealed,
                          std::span<const std::uint8_t> associated) {
  if (sealed.nonce.size() != nonceSize || sealed.box.size() < tagSize)
    return base::Error{base::ErrorCode::vaultDamaged,
                       "a sealed box has a nonce of " + std::to_string(sealed.nonce.size()) +
                           " bytes and " + std::to_string(sealed.box.size()) +
                           " bytes of content, where 24 and at least 16 belong; restore the book "
                           "from a backup"};
  makeReady();
  Secret plain = Secret::ofSize(sealed.box.size() - tagSize);
  unsigned long long written = 0;
  const int failed = crypto_aead_xchacha20poly1305_ietf_decrypt(
      plain.bytes().data(), &written, nullptr, sealed.box.data(), sealed.box.size(),
      associated.data(), associated.size(), sealed.nonce.data(), key.bytes().data());
  if (failed != 0)
    return base::Error{base::ErrorCode::vaultDamaged,
                       "a sealed box does not open: it was changed, moved from its place or sealed "
                       "with another key; restore the book from a backup"};
  base::require(written == plain.size(), "opening gave another length");
  return plain;
}

} // namespace gk::crypto
