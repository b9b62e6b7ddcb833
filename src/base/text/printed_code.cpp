#include "base/text/printed_code.h"

#include "base/contract.h"
#include "base/text/text.h"

#include <algorithm>
#include <optional>

namespace gk::base {

namespace {

constexpr std::string_view codeDigits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr int bitsEach = 5;

/// In the field of 32 elements, x^5 = x^2 + 1, whose generator is x.
unsigned timesX(unsigned value) {
  value <<= 1U;
  return (value & 32U) != 0 ? value ^ 0b100101U : value;
}

/// The sum of the digits, each times its own power of x, from x^1 on: no two of 31 places have the
/// same weight, and the check itself has that of x^0.
unsigned checkOf(std::span<const unsigned> digits) {
  unsigned sum = 0;
  for (const auto digit : digits) // Horner's rule
    sum = timesX(sum ^ digit);
  return sum;
}

/// With a check after each `perCheck`; the number of the group goes in, so that whole groups that
/// changed places are found.
std::vector<unsigned> withChecks(std::span<const unsigned> digits, CodeShape shape) {
  std::vector<unsigned> all;
  unsigned number = 1;
  const auto each = static_cast<std::size_t>(shape.perCheck);
  for (std::size_t at = 0; at < digits.size(); at += each, ++number) {
    const auto part = digits.subspan(at, std::min(each, digits.size() - at));
    all.insert(all.end(), part.begin(), part.end());
    all.push_back(checkOf(part) ^ number);
  }
  return all;
}

std::string laidOut(std::span<const unsigned> digits, CodeShape shape) {
  std::string text;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && i % static_cast<std::size_t>(shape.group) == 0) text += '-';
    text += codeDigits[digits[i]];
  }
  return text;
}

Error mistyped(std::string what) {
  return {ErrorCode::textMalformed, std::move(what)};
}

/// What a character that was typed stands for; none where it stands for nothing.
std::optional<unsigned> digitOf(char c) {
  if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  if (c == 'O') c = '0';
  if (c == 'I' || c == 'L') c = '1';
  const auto at = codeDigits.find(c);
  if (at == std::string_view::npos) return std::nullopt;
  return static_cast<unsigned>(at);
}

} // namespace

std::string printedCode(std::span<const std::uint8_t> bytes, CodeShape shape) {
  require(bytes.size() * 8 >=
              static_cast<std::size_t>(shape.data) * static_cast<std::size_t>(bitsEach),
          "bytes enough for the code");
  std::vector<unsigned> digits;
  unsigned held = 0;
  int bits = 0;
  for (const auto byte : bytes) {
    held = (held << 8U) | byte;
    for (bits += 8; bits >= bitsEach && static_cast<int>(digits.size()) < shape.data;
         bits -= bitsEach)
      digits.push_back(held >> static_cast<unsigned>(bits - bitsEach) & 31U);
    held &= 0xFFU;
  }
  return laidOut(withChecks(digits, shape), shape);
}

Result<std::string> readCode(std::string_view text, CodeShape shape) {
  std::vector<unsigned> digits;
  for (const char c : text) {
    if (c == '-' || c == ' ' || c == '\t') continue;
    const auto digit = digitOf(c);
    if (!digit)
      return mistyped("the code has a character that codes do not use, after " +
                      counted(digits.size(), "character", "characters") +
                      "; codes have digits and letters without I, L, O and U");
    digits.push_back(*digit);
  }
  if (static_cast<int>(digits.size()) != shape.length())
    return mistyped("the code has " + counted(digits.size(), "character", "characters") +
                    "; it should have " + std::to_string(shape.length()));
  const auto each = static_cast<std::size_t>(shape.perCheck) + 1;
  std::vector<unsigned> data;
  for (std::size_t i = 0; i < digits.size(); ++i)
    if (i % each != each - 1 && i + 1 != digits.size()) data.push_back(digits[i]);
  const auto right = withChecks(data, shape);
  for (std::size_t i = 0; i < digits.size(); ++i)
    if (digits[i] != right[i])
      return mistyped(digits.size() == each
                          ? std::string("the code has a typing error; compare it with the paper")
                          : "the code has a typing error in group " +
                                std::to_string(i / static_cast<std::size_t>(shape.group) + 1) +
                                "; compare that group with the paper");
  return laidOut(digits, shape);
}

} // namespace gk::base
