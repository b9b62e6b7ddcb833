#include "crypto/sign.h"

#include "crypto/ready.h"

#include <sodium.h>

#include <utility>

namespace gk::crypto {

static_assert(Key::size == crypto_sign_ed25519_SEEDBYTES);
static_assert(publicKeySize == crypto_sign_ed25519_PUBLICKEYBYTES);
static_assert(signatureSize == crypto_sign_ed25519_BYTES);

SigningKey SigningKey::random(base::Random& random) {
  return SigningKey(Key::random(random));
}

SigningKey::SigningKey(Key seed)
    : seed_(std::move(seed)), expanded_(Secret::ofSize(crypto_sign_ed25519_SECRETKEYBYTES)),
      public_(publicKeySize) {
  makeReady();
  const int failed = crypto_sign_ed25519_seed_keypair(public_.data(), expanded_.bytes().data(),
                                                      seed_.bytes().data());
  base::require(failed == 0, "a seed of the right size");
}

Bytes SigningKey::sign(std::span<const std::uint8_t> message) const {
  makeReady();
  Bytes signature(signatureSize);
  const int failed = crypto_sign_ed25519_detached(signature.data(), nullptr, message.data(),
                                                  message.size(), expanded_.bytes().data());
  base::require(failed == 0, "a key that was not moved from");
  return signature;
}

bool isSignedBy(std::span<const std::uint8_t> publicKey, std::span<const std::uint8_t> message,
                std::span<const std::uint8_t> signature) {
  if (publicKey.size() != publicKeySize || signature.size() != signatureSize) return false;
  makeReady();
  return crypto_sign_ed25519_verify_detached(signature.data(), message.data(), message.size(),
                                             publicKey.data()) == 0;
}

} // namespace gk::crypto
