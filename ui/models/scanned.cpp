#include "ui/models/scanned.h"

#include <algorithm>

namespace gk::ui {

base::Result<std::optional<roster::ChildId>> childOfNumber(session::Reader& book,
                                                           const std::string& number) {
  const auto found = book.findChildren(number);
  if (!found) return found.error();
  std::optional<roster::ChildId> child;
  for (const auto& one : *found) {
    if (one.number != number) continue;
    if (child)
      return base::Error{base::ErrorCode::ruleIdentity,
                         "two cards have the number " + number +
                             ", from two laptops; answer the conflict at the close-out first"};
    child = one.child;
  }
  return child;
}

std::optional<std::string> numberMeant(const std::string& typed) {
  if (const auto number = roster::parseChildNumber(typed)) return *number;
  const bool isDigits = !typed.empty() && std::ranges::all_of(typed, [](char sign) {
    return sign >= '0' && sign <= '9';
  });
  return isDigits ? std::optional(roster::withCheckDigit(typed)) : std::nullopt;
}

} // namespace gk::ui
