#include "ui/models/scanned.h"

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

} // namespace gk::ui
