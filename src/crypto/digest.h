#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace gk::crypto {

/// BLAKE2b with 256 bits (RFC 7693), no key, as 64 lower-case hexadecimal digits.
std::string digest(std::span<const std::uint8_t> bytes);
std::string digest(std::string_view bytes);

} // namespace gk::crypto
