#include "base/text/text.h"

#include <optional>

namespace gk::base {

namespace {

// Base letters by Unicode's decomposition, or the nearest letter where it has none; '?' marks a
// sign that is no letter.
constexpr std::string_view latin1 =
    "aaaaaaaceeeeiiiidnooooo?ouuuuytsaaaaaaaceeeeiiiidnooooo?ouuuuyty";
constexpr std::string_view extended =
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkkllllllllllnnnnnnnnnoooooo"
    "oorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";
constexpr std::string_view vietnamese =
    "aaaaaaaaaaaaaaaaaaaaaaaaeeeeeeeeeeeeeeeeiiiioooooooooooooooooooooooouuuuuuuuuuuuuuyyyyyyyy";
static_assert(latin1.size() == 64 && extended.size() == 128 && vietnamese.size() == 90);

/// The code point of a two or three byte sequence at the start, with its length; else nothing.
struct Wide {
  char32_t code;
  std::size_t length;
};

std::optional<Wide> wideAt(std::string_view text) {
  const auto bits = [&](std::size_t i) {
    return static_cast<char32_t>(static_cast<unsigned char>(text[i]));
  };
  if (text.size() >= 2 && bits(0) >= 0xC2 && bits(0) < 0xE0)
    return Wide{((bits(0) & 0x1FU) << 6U) | (bits(1) & 0x3FU), 2};
  if (text.size() >= 3 && bits(0) >= 0xE0 && bits(0) < 0xF0)
    return Wide{((bits(0) & 0x0FU) << 12U) | ((bits(1) & 0x3FU) << 6U) | (bits(2) & 0x3FU), 3};
  return std::nullopt;
}

std::optional<char> plainLetter(char32_t code) {
  if (code >= 0xC0 && code <= 0xFF) return latin1[code - 0xC0];
  if (code >= 0x100 && code <= 0x17F) return extended[code - 0x100];
  if (code >= 0x1EA0 && code <= 0x1EF9) return vietnamese[code - 0x1EA0];
  switch (code) {
  case 0x1A0: // O and U with horn
  case 0x1A1:
    return 'o';
  case 0x1AF:
  case 0x1B0:
    return 'u';
  case 0x218: // S and T with comma below
  case 0x219:
    return 's';
  case 0x21A:
  case 0x21B:
    return 't';
  default:
    return std::nullopt;
  }
}

/// Accents of text saved in decomposed form, and the typographic apostrophes.
bool isDropped(char32_t code) {
  return (code >= 0x300 && code <= 0x36F) || code == 0x2018 || code == 0x2019 || code == 0x2BC;
}

} // namespace

std::string folded(std::string_view utf8) {
  std::string out;
  bool gap = false;
  const auto put = [&](std::string_view bytes) {
    if (gap && !out.empty()) out += ' ';
    gap = false;
    out += bytes;
  };
  for (std::size_t i = 0; i < utf8.size();) {
    const char c = utf8[i];
    if (const auto wide = wideAt(utf8.substr(i))) {
      const auto letter = plainLetter(wide->code);
      if (letter) put({&*letter, 1});
      if (!letter && !isDropped(wide->code)) put(utf8.substr(i, wide->length));
      i += wide->length;
      continue;
    }
    if (c == ' ' || c == '\t' || c == '-')
      gap = true;
    else if (c >= 'A' && c <= 'Z')
      put(std::string(1, static_cast<char>(c - 'A' + 'a')));
    else if (c != '\'' && c != '.')
      put({&c, 1});
    ++i;
  }
  return out;
}

} // namespace gk::base
