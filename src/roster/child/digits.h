#pragma once

#include <string>
#include <string_view>

namespace gk::roster {

/// Of a telephone's or a student's number, however it is written: "(000) 555-0142" is "0005550142".
inline std::string digitsIn(std::string_view text) {
  std::string digits;
  for (const char c : text)
    if (c >= '0' && c <= '9') digits += c;
  return digits;
}

} // namespace gk::roster
