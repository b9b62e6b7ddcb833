#include "kit/package_code.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <ranges>

namespace gk::kit {

namespace {

constexpr char separator = '\x1d';

bool isDigits(std::string_view text) {
  return std::ranges::all_of(text, [](char sign) { return sign >= '0' && sign <= '9'; });
}

/// Of the last digit, by weights 3 and 1 from the right.
bool hasCheckDigit(std::string_view digits) {
  int sum = 0;
  int weight = 1;
  for (const char digit : std::views::reverse(digits)) {
    sum += (digit - '0') * weight;
    weight = weight == 1 ? 3 : 1;
  }
  return sum % 10 == 0;
}

/// "270600": day 00 is the last of its month.
std::optional<base::Date> expiryOf(std::string_view digits) {
  const auto part = [&](std::size_t at) { return std::string(digits.substr(at, 2)); };
  const auto month = "20" + part(0) + "-" + part(2);
  const auto read = base::parseExpiry(part(4) == "00" ? month : month + "-" + part(4));
  return read ? std::optional(*read) : std::nullopt;
}

/// How many signs an application identifier has behind it; zero for up to a separator.
std::optional<std::size_t> lengthOf(std::string_view identifier) {
  if (identifier == "01") return 14;
  if (identifier == "10" || identifier == "21") return 0;
  for (const auto* date : {"11", "13", "15", "16", "17"})
    if (identifier == date) return 6;
  return std::nullopt;
}

} // namespace

std::optional<PackageCode> readPackageCode(std::string_view code) {
  if (code.starts_with("]d2") || code.starts_with("]C1")) code.remove_prefix(3);
  const bool isPrinted = code.starts_with('(');
  PackageCode found;
  bool isFirst = true;
  while (!code.empty()) {
    if (code.front() == separator) {
      code.remove_prefix(1);
      continue;
    }
    if (isPrinted && (code.size() < 4 || code.front() != '(' || code[3] != ')'))
      return std::nullopt;
    const auto identifier = code.substr(isPrinted ? 1 : 0, 2);
    const auto length = lengthOf(identifier);
    // A product comes first: no other number begins like that by chance.
    if (!length || (isFirst && identifier != "01")) return std::nullopt;
    code.remove_prefix(isPrinted ? 4 : 2);
    const auto end =
        *length > 0 ? *length : std::min(code.size(), code.find(isPrinted ? '(' : separator));
    if (code.size() < end || end == 0) return std::nullopt;
    const auto value = code.substr(0, end);
    code.remove_prefix(end);
    if (*length > 0 && !isDigits(value)) return std::nullopt;
    if (identifier == "01" && !hasCheckDigit(value)) return std::nullopt;
    if (identifier == "10") found.lot = base::trim(value);
    if (identifier == "17") {
      found.expiry = expiryOf(value);
      if (!found.expiry) return std::nullopt;
    }
    isFirst = false;
  }
  if (found.lot.empty() || found.lot.size() > 20) return std::nullopt;
  return found;
}

bool isProductCode(std::string_view code) {
  constexpr std::array<std::size_t, 4> lengths{8, 12, 13, 14};
  return std::ranges::find(lengths, code.size()) != lengths.end() && isDigits(code) &&
         hasCheckDigit(code);
}

} // namespace gk::kit
