#include "ui/models/scanned.h"

namespace gk::ui {

base::Result<std::optional<roster::ChildId>> childOfNumber(session::Reader& book,
                                                           const std::string& number) {
  const auto found = book.findChildren(number);
  if (!found) return found.error();
  for (const auto& one : *found)
    if (one.number == number) return std::optional(one.child);
  return std::optional<roster::ChildId>{};
}

} // namespace gk::ui
