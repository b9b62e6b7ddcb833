#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace gk::exchange {

/// The bytes of a list as UTF-8, and what of the reading a person should know.
struct ListText {
  std::string utf8;
  std::vector<std::string> notes{}; ///< "Read as Windows-1252 text; look at the accents."
};

/// What stands where a sign could not be read (U+FFFD): whoever reads the cells holds such a row.
inline constexpr std::string_view unreadSign = "\xEF\xBF\xBD";

/// UTF-8 and UTF-16 of either order, with or without a byte order mark, and else Windows-1252, of
/// which Latin-1 is the part that is printed. Control characters and those that turn the direction
/// of a text become `unreadSign`; no-break spaces become spaces, and signs of no width go. A line
/// of UTF-8 that was once read as Windows-1252 ("NuÃ±ez") is decoded once more, and that is noted.
/// Fails with `csvMalformed` where it is no text: a workbook, a page of the web, a printed
/// document, other bytes. Nothing of the bytes is repeated.
base::Result<ListText> decodeList(std::string_view bytes);

/// As decodeList has its signs, of UTF-8 that came another way, such as in a workbook.
struct CleanText {
  std::string utf8;
  bool wasReadTwice; ///< and was decoded once more
};
CleanText cleaned(std::string_view utf8);
/// "2 lines were UTF-8 read twice ..." of so many.
std::string readTwiceNote(std::size_t count, std::string_view one, std::string_view many);

} // namespace gk::exchange
