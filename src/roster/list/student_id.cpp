#include "roster/list/student_id.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>

namespace gk::roster {

namespace {

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

/// "1.00235E+09".
bool isShortened(std::string_view text) {
  const auto exponent = text.find_first_of("eE");
  if (exponent == std::string_view::npos || exponent == 0 || exponent + 2 >= text.size())
    return false;
  const auto begin = text.substr(0, exponent);
  const auto end = text.substr(exponent + 1);
  // "12E3" may be a number that someone gave out; a sign or a point is a spreadsheet's.
  const bool isSigned = end.front() == '+' || end.front() == '-';
  if (!isSigned && begin.find_first_of(".,") == std::string_view::npos) return false;
  return std::ranges::all_of(begin, [](char c) { return isDigit(c) || c == '.' || c == ','; }) &&
         isDigit(begin.front()) && std::ranges::all_of(end.substr(isSigned ? 1 : 0), isDigit);
}

} // namespace

std::string plainStudentId(std::string_view cell) {
  auto id = base::trim(cell);
  if (id.starts_with("=\"") && id.ends_with('"') && id.size() > 2)
    id = base::trim(id.substr(2, id.size() - 3));
  while (id.starts_with('\''))
    id.remove_prefix(1);
  const auto point = id.find('.');
  if (point != std::string_view::npos && point > 0 && point + 1 < id.size() &&
      std::ranges::all_of(id.substr(0, point), isDigit) &&
      id.find_first_not_of('0', point + 1) == std::string_view::npos)
    id = id.substr(0, point);
  return std::string(base::trim(id));
}

bool isNoStudentId(std::string_view id) {
  constexpr std::array words{"n/a",     "na",    "null", "nil",     "none",  "unknown",
                             "tbd",     "?",     "n a",  "pending", "false", "(null)",
                             "(blank)", "blank", "x",    "xxxx",    "#",     "."};
  const auto folded = base::folded(id);
  // "-" and "." fold to nothing, "#N/A" and "#REF!" are a spreadsheet's.
  if (folded.empty() || folded.find_first_not_of('0') == std::string::npos) return true;
  if (id.starts_with('#') && std::ranges::none_of(id, isDigit)) return true;
  if (id.starts_with("#DIV")) return true;
  return std::ranges::find(words, folded) != words.end() || isShortened(id);
}

std::string studentIdKey(std::string_view id) {
  auto key = base::folded(id);
  std::erase(key, ' ');
  const auto from = key.find_first_not_of('0');
  return from == std::string::npos ? std::string() : key.substr(from);
}

} // namespace gk::roster
