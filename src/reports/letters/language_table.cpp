#include "reports/letters/language_table.h"

#include "reports/print/cells.h"

#include <algorithm>

namespace gk::reports {

Table languageTable(const std::map<std::string, int>& asked, const LetterTemplates& templates) {
  std::vector<std::pair<std::string, int>> order(asked.begin(), asked.end());
  std::ranges::stable_sort(order, std::ranges::greater(),
                           [](const auto& one) { return one.second; });
  Table table{"Languages of letters",
              {texts("Asked for"), counts("Students", "children"), texts("Letters")},
              {"A student whose guardians read two languages counts in both. Where there are no "
               "letters in a language, they go in English with the line that an interpreter can be "
               "called; nothing is translated by a machine."}};
  for (const auto& [language, children] : order) {
    const auto* made = templates.find(language);
    table.rows.push_back({language, children,
                          !made ? "NONE: to be translated"
                          : made->header().isDraft()
                              ? "a draft, until a qualified person approves it"
                              : "approved by " + made->header().approvedBy});
  }
  return table;
}

} // namespace gk::reports
