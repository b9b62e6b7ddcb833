#include "ui/models/scanned.h"

#include <algorithm>

namespace gk::ui {

base::Result<std::optional<roster::ChildId>> childOfNumber(session::Reader& book,
                                                           const std::string& number) {
  const auto found = book.findChildren(number);
  if (!found) return found.error();
  for (const auto& one : *found)
    if (one.number == number) return std::optional(one.child);
  return std::optional<roster::ChildId>{};
}

std::optional<std::string> numberMeant(const std::string& typed) {
  if (const auto number = roster::parseChildNumber(typed)) return *number;
  const bool isDigits = !typed.empty() && std::ranges::all_of(typed, [](char sign) {
    return sign >= '0' && sign <= '9';
  });
  return isDigits ? std::optional(roster::withCheckDigit(typed)) : std::nullopt;
}

} // namespace gk::ui
