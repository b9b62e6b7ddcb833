#include "base/identity/id.h"

#include <span>

namespace gk::base {

namespace {

constexpr std::string_view digits = "0123456789abcdef";

constexpr bool dashBefore(std::size_t byte) {
  return byte == 4 || byte == 6 || byte == 8 || byte == 10;
}

int nibble(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

} // namespace

std::string Uuid::text() const {
  std::string out;
  out.reserve(36);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (dashBefore(i)) out += '-';
    out += digits[bytes[i] >> 4U];
    out += digits[bytes[i] & 0x0FU];
  }
  return out;
}

Result<Uuid> Uuid::parse(std::string_view text) {
  const Error bad{ErrorCode::textMalformed, "an identifier is 32 hexadecimal digits with dashes"};
  if (text.size() != 36) return bad;
  Uuid uuid;
  std::size_t at = 0;
  for (std::size_t i = 0; i < uuid.bytes.size(); ++i) {
    if (dashBefore(i) && text[at++] != '-') return bad;
    const int high = nibble(text[at++]);
    const int low = nibble(text[at++]);
    if (high < 0 || low < 0) return bad;
    uuid.bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return uuid;
}

Uuid makeUuid7(Instant now, Random& random) {
  Uuid uuid;
  random.fill(uuid.bytes);
  auto millis = static_cast<std::uint64_t>(now.utc.count());
  for (std::size_t i = 6; i-- > 0;) {
    uuid.bytes[i] = static_cast<std::uint8_t>(millis & 0xFFU);
    millis >>= 8U;
  }
  uuid.bytes[6] = static_cast<std::uint8_t>((uuid.bytes[6] & 0x0FU) | 0x70U);
  uuid.bytes[8] = static_cast<std::uint8_t>((uuid.bytes[8] & 0x3FU) | 0x80U);
  return uuid;
}

Instant timeOf(const Uuid& uuid) {
  Milliseconds time{0};
  for (std::size_t i = 0; i < 6; ++i)
    time = time * 256 + Milliseconds(uuid.bytes[i]);
  return Instant{time};
}

} // namespace gk::base
