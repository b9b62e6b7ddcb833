#include "crypto/digest.h"

#include "base/contract.h"
#include "crypto/ready.h"

#include <sodium.h>

#include <array>

namespace gk::crypto {

std::string digest(std::span<const std::uint8_t> bytes) {
  makeReady();
  std::array<std::uint8_t, 32> hash{};
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

} // namespace gk::crypto
