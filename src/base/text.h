#pragma once

#include "base/result.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace gk::base {

std::string_view trim(std::string_view text);
/// Nothing but blanks, those of Unicode too.
bool isBlank(std::string_view utf8);
/// What a record must say, such as a name: takes the blanks around it away. Fails with
/// `textMalformed` and `otherwise` when nothing is left.
Result<Done> fillIn(std::string& text, std::string_view otherwise);
std::vector<std::string_view> split(std::string_view text, char separator);
std::string join(const std::vector<std::string>& parts, std::string_view separator);

/// Whole text, base ten, optional minus; else `numberMalformed`.
Result<std::int64_t> parseInt(std::string_view text);
/// Whole text, a point for the decimals; NaN and infinity are `numberMalformed`.
Result<double> parseDouble(std::string_view text);

/// `value` with so many decimals, a point, no grouping.
std::string fixed(double value, int decimals);

/// For finding, never for showing: lower case; accents, apostrophes and full stops dropped; hyphens
/// read as spaces, spaces single. Knows the letters of the Latin alphabets of Europe and of
/// Vietnamese, composed or not; other scripts pass unchanged.
std::string folded(std::string_view utf8);

/// Whether the bytes are well-formed UTF-8.
bool isUtf8(std::string_view text);

} // namespace gk::base
