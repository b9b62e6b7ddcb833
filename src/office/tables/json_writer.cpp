#include "office/tables/json_writer.h"

#include "base/contract.h"

#include <array>
#include <charconv>
#include <cmath>

namespace gk::office {

namespace {

std::string quoted(std::string_view text) {
  constexpr std::string_view hex = "0123456789abcdef";
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (byte < 0x20) {
      out += "\\u00";
      out += hex[byte >> 4U];
      out += hex[byte & 0xFU];
    } else {
      out += c;
    }
  }
  return out + '"';
}

} // namespace

void JsonWriter::key(std::string_view name) {
  base::require(!levels_.empty() && levels_.back().closing == '}' && !afterKey_,
                "a JSON key outside an object");
  separate();
  out_ << quoted(name) << ": ";
  afterKey_ = true;
}

void JsonWriter::value(std::string_view text) {
  write(quoted(text));
}

void JsonWriter::value(double number) {
  if (!std::isfinite(number)) return null();
  std::array<char, 32> digits{};
  const auto [end, trouble] = std::to_chars(digits.data(), digits.data() + digits.size(), number);
  base::require(trouble == std::errc{}, "a number longer than any");
  write({digits.data(), end});
}

void JsonWriter::value(const std::vector<std::string>& texts) {
  beginArray();
  for (const auto& text : texts)
    value(text);
  endArray();
}

void JsonWriter::begin(char bracket) {
  write({&bracket, 1});
  levels_.push_back({bracket == '{' ? '}' : ']'});
}

void JsonWriter::end(char bracket) {
  base::require(!levels_.empty() && levels_.back().closing == bracket && !afterKey_,
                "a JSON end without its beginning");
  const bool wasEmpty = levels_.back().isEmpty;
  levels_.pop_back();
  if (!wasEmpty) newLine();
  out_ << bracket;
  if (levels_.empty()) out_ << '\n';
}

void JsonWriter::write(std::string_view text) {
  if (!afterKey_) {
    base::require(levels_.empty() || levels_.back().closing == ']', "a JSON value without a key");
    if (!levels_.empty()) separate();
  }
  afterKey_ = false;
  out_ << text;
}

void JsonWriter::separate() {
  if (!levels_.back().isEmpty) out_ << ',';
  levels_.back().isEmpty = false;
  newLine();
}

void JsonWriter::newLine() {
  out_ << '\n' << std::string(2 * levels_.size(), ' ');
}

} // namespace gk::office
