#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace gk::base {

/// The same bytes, for what takes text. A byte is a byte, whatever its sign.
inline std::string_view textOf(std::span<const std::uint8_t> bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

} // namespace gk::base
