#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace gk::base {

std::string_view trim(std::string_view text) {
  constexpr std::string_view blank = " \t\r\n";
  const auto first = text.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blank) - first + 1);
}

bool isBlank(std::string_view utf8) {
  // The spaces of Unicode 15 (White_Space), and those of no width that come along when pasted.
  constexpr std::array<std::string_view, 22> others{
      "\xC2\x85",     "\xC2\xA0",     "\xE1\x9A\x80", "\xE2\x80\x80", "\xE2\x80\x81",
      "\xE2\x80\x82", "\xE2\x80\x83", "\xE2\x80\x84", "\xE2\x80\x85", "\xE2\x80\x86",
      "\xE2\x80\x87", "\xE2\x80\x88", "\xE2\x80\x89", "\xE2\x80\x8A", "\xE2\x80\x8B",
      "\xE2\x80\xA8", "\xE2\x80\xA9", "\xE2\x80\xAF", "\xE2\x81\x9F", "\xE2\x81\xA0",
      "\xE3\x80\x80", "\xEF\xBB\xBF"};
  while (!utf8.empty()) {
    std::size_t length = utf8.front() == ' ' || (utf8.front() >= '\t' && utf8.front() <= '\r');
    for (const auto blank : others)
      if (utf8.starts_with(blank)) length = blank.size();
    if (length == 0) return false;
    utf8.remove_prefix(length);
  }
  return true;
}

Result<Done> fillIn(std::string& text, std::string_view otherwise) {
  if (isBlank(text)) return Error{ErrorCode::textMalformed, std::string(otherwise)};
  text = std::string(trim(text));
  return Done{};
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  std::size_t from = 0;
  for (;;) {
    const auto to = text.find(separator, from);
    parts.push_back(text.substr(from, to == std::string_view::npos ? to : to - from));
    if (to == std::string_view::npos) return parts;
    from = to + 1;
  }
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string out;
  for (const auto& part : parts) {
    if (&part != &parts.front()) out += separator;
    out += part;
  }
  return out;
}

namespace {

template <class Number>
Result<Number> parseNumber(std::string_view text) {
  Number value{};
  const char* end = text.data() + text.size();
  const auto [stop, trouble] = std::from_chars(text.data(), end, value);
  if (text.empty() || trouble != std::errc{} || stop != end)
    return Error{ErrorCode::numberMalformed, "that is not a number"};
  return value;
}

} // namespace

Result<std::int64_t> parseInt(std::string_view text) {
  return parseNumber<std::int64_t>(text);
}

std::tuple<bool, std::int64_t, std::string> numberedPlace(const std::string& text) {
  constexpr std::size_t mostDigits = 9;
  const auto end = std::ranges::find_if(text, [](char c) { return c < '0' || c > '9'; });
  const auto digits = std::min(static_cast<std::size_t>(end - text.begin()), mostDigits);
  return {digits == 0, parseInt(std::string_view(text).substr(0, digits)).value_or(0), text};
}

Result<double> parseDouble(std::string_view text) {
  auto value = parseNumber<double>(text);
  if (value && !std::isfinite(*value))
    return Error{ErrorCode::numberMalformed, "that is not a finite number"};
  return value;
}

std::string fixed(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto [end, trouble] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                            std::chars_format::fixed, decimals);
  require(trouble == std::errc{}, "a number too long to write");
  return {buffer.data(), end};
}

std::string percent(double share, int decimals) {
  return fixed(100 * share, decimals);
}

std::string percent(double part, double whole, int decimals) {
  return fixed(100 * part / whole, decimals);
}

bool isUtf8(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size()) {
    const auto byte = static_cast<unsigned char>(text[i]);
    std::size_t more = 0;
    unsigned code = byte;
    if (byte >= 0x80) {
      more = byte >= 0xF0 ? 3 : byte >= 0xE0 ? 2 : 1;
      if (byte < 0xC2 || byte > 0xF4 || i + more >= text.size()) return false;
      code = byte & (0x3FU >> more);
    }
    for (std::size_t k = 1; k <= more; ++k) {
      const auto next = static_cast<unsigned char>(text[i + k]);
      if ((next & 0xC0U) != 0x80U) return false;
      code = (code << 6U) | (next & 0x3FU);
    }
    const bool overlong = (more == 2 && code < 0x800) || (more == 3 && code < 0x10000);
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (overlong || surrogate || code > 0x10FFFF) return false;
    i += more + 1;
  }
  return true;
}

std::optional<std::size_t> controlIn(std::string_view utf8) {
  for (std::size_t i = 0; i < utf8.size(); ++i) {
    const auto byte = static_cast<unsigned char>(utf8[i]);
    if (byte >= 0x20 && byte != 0x7F && byte != 0xC2 && byte != 0xD8 && byte != 0xE2)
      continue; // nearly all
    const bool isLayout = byte == '\t' || byte == '\n' || byte == '\r';
    if ((byte < 0x20 && !isLayout) || byte == 0x7F) return i;
    if (byte == 0xC2 && i + 1 < utf8.size() && static_cast<unsigned char>(utf8[i + 1]) < 0xA0)
      return i;                                    // U+0080 to U+009F
    if (utf8.substr(i, 2) == "\xD8\x9C") return i; // U+061C
    const auto three = utf8.substr(i, 3);
    if (three == "\xE2\x80\x8E" || three == "\xE2\x80\x8F" ||
        (three >= "\xE2\x80\xA8" && three <= "\xE2\x80\xAE") ||
        (three >= "\xE2\x81\xA6" && three <= "\xE2\x81\xA9"))
      return i;
  }
  return std::nullopt;
}

std::string printable(std::string_view text) {
  std::string shown(text);
  if (!isUtf8(shown))
    for (char& c : shown)
      if (static_cast<unsigned char>(c) > 0x7E) c = '?';
  while (const auto at = controlIn(shown)) {
    const auto byte = static_cast<unsigned char>(shown[*at]);
    shown.replace(*at, byte == 0xE2 ? 3 : byte == 0xC2 || byte == 0xD8 ? 2 : 1, "?");
  }
  for (char& c : shown)
    if (c == '\n' || c == '\r' || c == '\t') c = '?';
  return shown;
}

Result<Done> soundText(std::string_view text) {
  if (!isUtf8(text))
    return Error{ErrorCode::textMalformed,
                 "it is not UTF-8 text; type it again or save its file as UTF-8"};
  if (controlIn(text))
    return Error{ErrorCode::textMalformed,
                 "it holds a control character, which cannot be seen; type it again by hand"};
  return Done{};
}

} // namespace gk::base
