#pragma once

#include "base/result.h"

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
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
/// For sorting, as rooms are: "10" after "9", by the number that it begins with, then as written;
/// what begins with none comes last.
std::tuple<bool, std::int64_t, std::string> numberedPlace(const std::string& text);
/// Whole text, a point for the decimals; NaN and infinity are `numberMalformed`.
Result<double> parseDouble(std::string_view text);

/// "1 tooth", "4 teeth": the only way to write a count with its noun.
template <std::integral Count>
std::string counted(Count count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

/// `value` with so many decimals, a point, no grouping.
std::string fixed(double value, int decimals);

/// "53.5" for 0.535: the only way to write a share in percent.
std::string percent(double share, int decimals = 1);
/// The same of `part` in `whole`, which is not 0.
std::string percent(double part, double whole, int decimals);

/// For finding, never for showing: lower case; accents, apostrophes and full stops dropped; hyphens
/// read as spaces, spaces single. Knows the letters of the Latin alphabets of Europe and of
/// Vietnamese, composed or not; other scripts pass unchanged.
std::string folded(std::string_view utf8);

/// Whether the bytes are well-formed UTF-8.
bool isUtf8(std::string_view text);

/// Where the first sign stands that no text needs and that can make it read otherwise than it is
/// kept: NUL and the other control characters, but for tab and line ends, line ends that are no
/// such (U+2028, U+2029), and those that turn the direction of a line (U+061C, U+200E, U+200F,
/// U+202A to U+202E, U+2066 to U+2069). Of UTF-8.
std::optional<std::size_t> controlIn(std::string_view utf8);

/// The text as a terminal may show it: "?" for each byte of what `controlIn` finds, also for line
/// ends, and for what is no UTF-8. A file's name may hold anything.
std::string printable(std::string_view text);

/// What every text passes that a person types or a file brings, before it is kept. Fails with
/// `textMalformed`, which repeats nothing of it.
Result<Done> soundText(std::string_view text);

} // namespace gk::base
