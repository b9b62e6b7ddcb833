#pragma once

#include "base/result.h"

#include <string_view>
#include <vector>

namespace gk::reports {

/// A QR code (ISO/IEC 18004) as its modules, row by row; true is dark. Without the quiet zone of
/// four modules that it needs on each side.
struct QrCode {
  int width = 0;
  std::vector<bool> dark{};
  static constexpr int quiet = 4;

  [[nodiscard]] bool isDark(int column, int row) const {
    return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
                static_cast<std::size_t>(column)];
  }
};

/// Of a short text of printable ASCII, such as a child's number, with error correction M (15 %):
/// slips are folded and smudged. Fails with `textMalformed` for an empty, longer or other text.
base::Result<QrCode> qrCode(std::string_view text);

constexpr std::size_t longestQrText = 32;

} // namespace gk::reports
