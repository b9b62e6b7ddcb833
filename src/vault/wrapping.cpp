#include "vault/wrapping.h"

#include "crypto/sealed.h"

#include <algorithm>
#include <utility>

namespace gk::vault {

namespace {

crypto::Bytes purposeBytes(std::string_view text) {
  return {text.begin(), text.end()};
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

base::Result<base::Done> checkPassphrase(const crypto::Secret& passphrase) {
  if (characterCount(passphrase) >= minPassphraseCharacters) return base::Done{};
  return base::Error{base::ErrorCode::callMalformed,
                     "the passphrase is shorter than 8 characters; choose a longer one, such as "
                     "four words"};
}

base::Result<WrappedKey> wrapKey(const crypto::Key& key, const crypto::Secret& passphrase,
                                 std::string_view purpose, crypto::KdfCost cost,
                                 base::Random& random) {
  if (const auto sound = checkPassphrase(passphrase); !sound) return sound.error();
  crypto::Bytes salt(crypto::saltSize);
  random.fill(salt);
  const auto wrapping = crypto::deriveKey(passphrase, salt, cost);
  if (!wrapping) return wrapping.error();
  auto sealed = crypto::seal(*wrapping, key.bytes(), purposeBytes(purpose), random);
  return WrappedKey{.salt = std::move(salt),
                    .opsLimit = cost.opsLimit,
                    .memoryBytes = cost.memoryBytes,
                    .nonce = std::move(sealed.nonce),
                    .box = std::move(sealed.box)};
}

base::Result<crypto::Key> unwrapKey(const WrappedKey& wrapped, const crypto::Secret& passphrase,
                                    std::string_view purpose) {
  if (!hasShape(wrapped))
    return base::Error{base::ErrorCode::vaultDamaged,
                       "a wrapped key has parts of the wrong length; restore the logbook from a "
                       "backup"};
  const crypto::KdfCost cost{.opsLimit = wrapped.opsLimit, .memoryBytes = wrapped.memoryBytes};
  const auto wrapping = crypto::deriveKey(passphrase, wrapped.salt, cost);
  if (!wrapping) return wrapping.error();
  auto opened =
      crypto::open(*wrapping, {.nonce = wrapped.nonce, .box = wrapped.box}, purposeBytes(purpose));
  if (!opened)
    return base::Error{base::ErrorCode::vaultWrongPassphrase,
                       "the passphrase does not open this; check capital letters and keyboard "
                       "language and type it again"};
  return crypto::Key::of(*std::move(opened));
}

} // namespace gk::vault
