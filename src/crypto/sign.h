#pragma once

#include "base/random.h"
#include "crypto/sealed.h"
#include "crypto/secret.h"

#include <cstddef>
#include <cstdint>
#include <span>

namespace gk::crypto {

constexpr std::size_t publicKeySize = 32;
constexpr std::size_t signatureSize = 64;

/// A secret Ed25519 key (RFC 8032, section 5.1), made of a seed of 256 bits that is all that need
/// be kept of it.
class SigningKey {
 public:
  static SigningKey random(base::Random& random);
  explicit SigningKey(Key seed);

  [[nodiscard]] const Key& seed() const { return seed_; }
  /// May lie open.
  [[nodiscard]] const Bytes& publicKey() const { return public_; }
  /// The same bytes always get the same signature.
  [[nodiscard]] Bytes sign(std::span<const std::uint8_t> message) const;

  /// As Key; it signs nothing until `expose`, and its seed may not be asked for.
  void forbid() {
    seed_.forbid();
    expanded_.forbid();
  }
  void expose() {
    seed_.expose();
    expanded_.expose();
  }

 private:
  Key seed_;
  Secret expanded_; // the seed and the public key, as the library signs with
  Bytes public_;
};

/// Whether who holds the secret of `publicKey` signed just these bytes. False for what is no key or
/// no signature.
bool isSignedBy(std::span<const std::uint8_t> publicKey, std::span<const std::uint8_t> message,
                std::span<const std::uint8_t> signature);

} // namespace gk::crypto
