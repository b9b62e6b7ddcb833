#include "exchange/lists/list_text.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <optional>

namespace gk::exchange {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr char32_t unread = 0xFFFD;

/// Bytes 0x80 to 0x9F of Windows-1252 (the WHATWG Encoding Standard's index, and Microsoft's table
/// cp1252); 0 where it has no sign. The other bytes are the code points of Latin-1.
constexpr std::array<char32_t, 32> windows1252{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

unsigned byteAt(std::string_view bytes, std::size_t place) {
  return static_cast<unsigned char>(bytes[place]);
}

/// Spaces that are not ' ', as people paste them.
bool isSpace(char32_t code) {
  return code == 0xA0 || (code >= 0x2000 && code <= 0x200A) || code == 0x202F || code == 0x205F ||
         code == 0x3000;
}

/// Takes no room and says nothing in a name: zero-width space and marks, soft hyphen, a byte order
/// mark in the middle.
bool isNothing(char32_t code) {
  return code == 0x61C || code == 0x200B || code == 0x200E || code == 0x200F || code == 0x2060 ||
         code == 0xFEFF || code == 0xAD;
}

/// As base::controlIn, and what no text has.
bool isControl(char32_t code) {
  const bool isLayout = code == '\t' || code == '\n' || code == '\r';
  return (code < 0x20 && !isLayout) || (code >= 0x7F && code <= 0x9F) ||
         (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) ||
         (code >= 0xD800 && code <= 0xDFFF) || code > 0x10FFFF;
}

class Utf8 {
 public:
  void put(char32_t code) {
    if (isNothing(code)) return;
    if (isSpace(code)) code = ' ';
    if (code == 0x2028 || code == 0x2029) code = '\n';
    if (isControl(code)) code = unread;
    if (code == unread) ++unread_;
    const auto add = [&](char32_t bits) { text_ += static_cast<char>(bits); };
    if (code < 0x80) {
      add(code);
    } else if (code < 0x800) {
      add(0xC0U | code >> 6U);
      add(0x80U | (code & 0x3FU));
    } else if (code < 0x10000) {
      add(0xE0U | code >> 12U);
      add(0x80U | (code >> 6U & 0x3FU));
      add(0x80U | (code & 0x3FU));
    } else {
      add(0xF0U | code >> 18U);
      add(0x80U | (code >> 12U & 0x3FU));
      add(0x80U | (code >> 6U & 0x3FU));
      add(0x80U | (code & 0x3FU));
    }
  }

  ListText take(std::vector<std::string> notes) {
    if (unread_ > 0)
      notes.push_back(base::counted(unread_, "character", "characters") +
                      " could not be read; those rows wait for a correction.");
    return {std::move(text_), std::move(notes)};
  }

 private:
  std::string text_;
  std::size_t unread_ = 0;
};

/// The sign at a place of well-formed UTF-8 and how long it is; none where the bytes are not.
struct Sign {
  char32_t code;
  std::size_t length;
};

std::optional<Sign> signAt(std::string_view bytes, std::size_t place) {
  const auto first = byteAt(bytes, place);
  if (first < 0x80) return Sign{first, 1};
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  const auto sign = bytes.substr(place, length);
  if (first < 0xC2 || sign.size() < length || !base::isUtf8(sign)) return std::nullopt;
  char32_t code = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i)
    code = code << 6U | (byteAt(sign, i) & 0x3FU);
  return Sign{code, length};
}

/// The byte that Windows-1252 writes for a sign; its five unused bytes pass as they are.
std::optional<char> byteOf(char32_t code) {
  if (code < 0x80 || (code >= 0xA0 && code <= 0xFF)) return static_cast<char>(code);
  const auto* const at = std::ranges::find(windows1252, code);
  if (at != windows1252.end()) return static_cast<char>(0x80 + (at - windows1252.begin()));
  const bool isUnused = code >= 0x80 && code < 0xA0 && windows1252.at(code - 0x80) == 0;
  return isUnused ? std::optional(static_cast<char>(code)) : std::nullopt;
}

/// A line that was UTF-8, was read as Windows-1252 and written as UTF-8 again, as it was at first.
/// Only where all of it is UTF-8 then, and of letters and marks that Western languages write: an
/// accent before a closing quote may pass for one such pair.
std::optional<std::string> readOnce(std::string_view line) {
  std::string bytes;
  bool isWide = false;
  for (std::size_t place = 0; place < line.size();) {
    const auto sign = signAt(line, place);
    if (!sign) return std::nullopt;
    const auto byte = byteOf(sign->code);
    if (!byte) return std::nullopt;
    isWide = isWide || sign->code >= 0x80;
    bytes += *byte;
    place += sign->length;
  }
  if (!isWide || !base::isUtf8(bytes)) return std::nullopt;
  for (std::size_t place = 0; place < bytes.size();) {
    const auto sign = signAt(bytes, place);
    if (!sign) return std::nullopt;
    const bool isUsual = sign->code < 0x80 || (sign->code >= 0xA0 && sign->code < 0x180) ||
                         (sign->code >= 0x2010 && sign->code <= 0x2026);
    if (!isUsual) return std::nullopt;
    place += sign->length;
  }
  return bytes;
}

/// All lines, with those that were read twice as they were at first; how many those are.
std::pair<std::string, std::size_t> linesReadOnce(std::string_view text) {
  std::string all;
  std::size_t count = 0;
  while (!text.empty()) {
    const auto end = text.find_first_of("\r\n");
    const auto line = text.substr(0, end);
    const auto once = readOnce(line);
    if (once) ++count;
    all += once ? std::string_view(*once) : line;
    if (end == std::string_view::npos) break;
    all += text[end];
    text.remove_prefix(end + 1);
  }
  return {std::move(all), count};
}

ListText fromUtf8(std::string_view written) {
  const auto [bytes, readTwice] = linesReadOnce(written);
  Utf8 text;
  std::size_t others = 0;
  std::size_t wide = 0;
  for (std::size_t place = 0; place < bytes.size();) {
    if (const auto sign = signAt(bytes, place)) {
      if (sign->length > 1) ++wide;
      text.put(sign->code);
      place += sign->length;
      continue;
    }
    // No UTF-8: what was written so is mostly of a spreadsheet on Windows.
    const auto byte = byteAt(bytes, place++);
    const auto code = byte < 0xA0 ? windows1252.at(byte - 0x80) : char32_t{byte};
    text.put(code == 0 ? unread : code);
    ++others;
  }
  std::vector<std::string> notes;
  if (others > 0 && wide == 0)
    notes.emplace_back("Read as Windows-1252 text (Latin-1). Check the names with accents.");
  else if (others > 0)
    notes.push_back("UTF-8 text, but " + base::counted(others, "character", "characters") +
                    " read as Windows-1252. Check the names with accents.");
  if (readTwice > 0) notes.push_back(readTwiceNote(readTwice, "line was", "lines were"));
  return text.take(std::move(notes));
}

enum class Order { low, high }; ///< which byte of two comes first

ListText fromUtf16(std::string_view bytes, Order order) {
  Utf8 text;
  const auto unit = [&](std::size_t place) -> char32_t {
    const auto one = byteAt(bytes, place);
    const auto two = byteAt(bytes, place + 1);
    return order == Order::low ? one | two << 8U : one << 8U | two;
  };
  std::size_t place = 0;
  for (; place + 1 < bytes.size(); place += 2) {
    auto code = unit(place);
    if (code >= 0xD800 && code <= 0xDBFF && place + 3 < bytes.size()) {
      const auto low = unit(place + 2);
      if (low >= 0xDC00 && low <= 0xDFFF) {
        code = 0x10000 + ((code - 0xD800) << 10U) + (low - 0xDC00);
        place += 2;
      }
    }
    text.put(code);
  }
  if (place < bytes.size()) text.put(unread); // half a sign at the end
  return text.take({"Read as UTF-16 text."});
}

/// UTF-16 without its mark: of the first signs most are of Latin letters, so that every second byte
/// is zero.
std::optional<Order> unmarkedUtf16(std::string_view bytes) {
  constexpr std::size_t looked = 4096;
  const auto pairs = std::min(bytes.size(), looked) / 2;
  std::size_t even = 0;
  std::size_t odd = 0;
  for (std::size_t i = 0; i < pairs; ++i) {
    if (bytes[2 * i] == '\0') ++even;
    if (bytes[2 * i + 1] == '\0') ++odd;
  }
  if (pairs == 0) return std::nullopt;
  if (2 * odd > pairs && 8 * even < pairs) return Order::low;
  if (2 * even > pairs && 8 * odd < pairs) return Order::high;
  return std::nullopt;
}

Error noList(std::string_view what) {
  return {ErrorCode::csvMalformed, std::string(what)};
}

/// What other programs' files begin with.
std::optional<Error> otherFile(std::string_view bytes) {
  constexpr std::string_view asCsv = "open it in a spreadsheet and save it as CSV (UTF-8)";
  if (bytes.starts_with("\xD0\xCF\x11\xE0"))
    return noList("this is a workbook of an old kind (.xls) or one with a password; " +
                  std::string(asCsv));
  if (bytes.starts_with("%PDF"))
    return noList("this is a printed document (PDF); ask the school for its list as CSV");
  if (bytes.starts_with("{\\rtf"))
    return noList("this is a text document (RTF); ask the school for its list as CSV");
  if (bytes.starts_with(std::string_view("\xFF\xFE\0\0", 4)) ||
      bytes.starts_with(std::string_view("\0\0\xFE\xFF", 4)))
    return noList("this is UTF-32 text; " + std::string(asCsv));
  auto head = base::trim(bytes.substr(0, 200));
  if (head.starts_with("\xEF\xBB\xBF")) head.remove_prefix(3);
  const auto small = base::isUtf8(head) ? base::folded(head) : std::string(head);
  for (const std::string_view begin : {"<html", "<!doctype", "<table", "<?xml", "<meta"})
    if (small.starts_with(begin))
      return noList("this is a page of the web or XML, whatever its name says; " +
                    std::string(asCsv));
  return std::nullopt;
}

} // namespace

CleanText cleaned(std::string_view utf8) {
  // Whether any line was: the words of a text are many, its lines few.
  return {fromUtf8(utf8).utf8, linesReadOnce(utf8).second > 0};
}

std::string readTwiceNote(std::size_t count, std::string_view one, std::string_view many) {
  return base::counted(count, one, many) +
         " UTF-8 read as other text and saved again. Decoded once more: check the names with "
         "accents.";
}

Result<ListText> decodeList(std::string_view bytes) {
  if (const auto other = otherFile(bytes)) return *other;
  if (bytes.starts_with("\xEF\xBB\xBF")) return fromUtf8(bytes.substr(3));
  if (bytes.starts_with("\xFF\xFE")) return fromUtf16(bytes.substr(2), Order::low);
  if (bytes.starts_with("\xFE\xFF")) return fromUtf16(bytes.substr(2), Order::high);
  // DOS programs end a text with it.
  if (bytes.ends_with('\x1A')) bytes.remove_suffix(1);
  if (bytes.find('\0') == std::string_view::npos) return fromUtf8(bytes);
  if (const auto order = unmarkedUtf16(bytes)) return fromUtf16(bytes, *order);
  return noList("this is no text; look whether it is the right file, and save the list as CSV");
}

} // namespace gk::exchange
