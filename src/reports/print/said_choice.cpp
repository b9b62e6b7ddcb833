#include "reports/print/said_choice.h"

#include <algorithm>

namespace gk::reports {

void sayChoice(std::vector<Table>& tables, const std::string& words) {
  const auto says = [&](const std::string& text) { return text.find(words) != std::string::npos; };
  for (auto& table : tables) {
    const bool isSaid = says(table.title) || std::ranges::any_of(table.notes, says) ||
                        std::ranges::any_of(table.rows, [&](const auto& row) {
                          return std::ranges::any_of(textsOf(row), says);
                        });
    if (!isSaid) table.notes.insert(table.notes.begin(), "Of " + words + " alone.");
  }
}

} // namespace gk::reports
