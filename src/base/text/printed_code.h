#pragma once

#include "base/result.h"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::base {

/// How a printed code is laid out: characters of five bits in groups. After each `perCheck` of them
/// comes one that checks them. It finds any one wrong character and any two that changed places.
struct CodeShape {
  int data;     ///< characters that say something, at most five bits each
  int perCheck; ///< at most 30
  int group;    ///< characters between two hyphens, the checks among them

  [[nodiscard]] constexpr int length() const { return data + (data + perCheck - 1) / perCheck; }
};

/// Of a signed sheet: 20 characters, the last of them the check.
constexpr CodeShape sheetCodeShape{.data = 19, .perCheck = 19, .group = 5};
/// Of a recovery code: 140 bits, each group of five with its own check.
constexpr CodeShape recoveryCodeShape{.data = 28, .perCheck = 4, .group = 5};

/// The first bits of `bytes` in the digits of Crockford's base 32 (www.crockford.com/base32.html,
/// from memory): no I, L, O or U. Precondition: there are enough of them.
std::string printedCode(std::span<const std::uint8_t> bytes, CodeShape shape);

/// A code as someone typed it, in the form that printedCode gives it: small letters, blanks, any
/// hyphens, and I, L or O for 1 and 0 are fine. Fails with `textMalformed`, which says whether it
/// is too short or long, has a character of no code, or in which group it is mistyped; it repeats
/// nothing of it.
Result<std::string> readCode(std::string_view text, CodeShape shape);

} // namespace gk::base
