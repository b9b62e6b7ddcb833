#include "crypto/digest.h"

#include "base/contract.h"
#include "crypto/ready.h"

#include <sodium.h>

namespace gk::crypto {

namespace {

crypto_generichash_state* stateIn(std::array<std::byte, 384>& bytes) {
  static_assert(sizeof(crypto_generichash_state) <= sizeof(bytes));
  static_assert(alignof(crypto_generichash_state) <= 64);
  return reinterpret_cast<crypto_generichash_state*>(bytes.data());
}

} // namespace

std::string digest(std::span<const std::uint8_t> bytes) {
  makeReady();
  Hash hash{};
  const int failed =
      crypto_generichash_blake2b(hash.data(), hash.size(), bytes.data(), bytes.size(), nullptr, 0);
  base::require(failed == 0, "the digest was refused");
  std::string hex(2 * hash.size() + 1, '\0');
  sodium_bin2hex(hex.data(), hex.size(), hash.data(), hash.size());
  hex.pop_back();
  return hex;
}

std::string digest(std::string_view bytes) {
  return digest(std::span(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()));
}

Hasher::Hasher() {
  makeReady();
  const int failed = crypto_generichash_init(stateIn(state_), nullptr, 0, sizeof(Hash));
  base::require(failed == 0, "a digest could not be begun");
}

void Hasher::add(std::string_view bytes) {
  crypto_generichash_update(stateIn(state_), reinterpret_cast<const std::uint8_t*>(bytes.data()),
                            bytes.size());
}

Hash Hasher::finish() {
  Hash hash{};
  const int failed = crypto_generichash_final(stateIn(state_), hash.data(), hash.size());
  base::require(failed == 0, "a digest was asked for twice");
  return hash;
}

} // namespace gk::crypto
