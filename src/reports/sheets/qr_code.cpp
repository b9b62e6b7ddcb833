#include "reports/sheets/qr_code.h"

#include <algorithm>
#include <memory>
#include <qrencode.h>
#include <string>

namespace gk::reports {

using base::Error;
using base::ErrorCode;

base::Result<QrCode> qrCode(std::string_view text) {
  const bool isPlain = std::ranges::all_of(text, [](char c) { return c > ' ' && c <= '~'; });
  if (text.empty() || text.size() > longestQrText || !isPlain)
    return Error{ErrorCode::textMalformed, "a printed code is 1 to 32 letters, digits or signs"};
  const std::string bytes(text);
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(
      QRcode_encodeString8bit(bytes.c_str(), 0, QR_ECLEVEL_M), &QRcode_free);
  if (!made) return Error{ErrorCode::textMalformed, "no code can be printed of this text"};
  QrCode code{made->width};
  const auto modules = static_cast<std::size_t>(code.width) * static_cast<std::size_t>(code.width);
  for (std::size_t i = 0; i < modules; ++i)
    code.dark.push_back((made->data[i] & 1) != 0);
  return code;
}

} // namespace gk::reports
