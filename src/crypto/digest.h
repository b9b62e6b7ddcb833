#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace gk::crypto {

/// BLAKE2b with 256 bits (RFC 7693), no key, as 64 lower-case hexadecimal digits.
std::string digest(std::span<const std::uint8_t> bytes);
std::string digest(std::string_view bytes);

using Hash = std::array<std::uint8_t, 32>;

/// The same, of bytes that come in pieces.
class Hasher {
 public:
  Hasher();
  void add(std::string_view bytes);
  /// Of all that was added. Nothing may be added or asked after it.
  [[nodiscard]] Hash finish();

 private:
  // libsodium's own state, whose header only this module includes.
  alignas(64) std::array<std::byte, 384> state_;
};

} // namespace gk::crypto
