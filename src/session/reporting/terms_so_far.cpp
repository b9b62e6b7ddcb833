#include "session/reporting/terms_so_far.h"

#include <algorithm>

namespace gk::session {

Result<std::vector<reports::TermTotals>> termsSoFar(Reader& book, base::Date start, base::Date asOf,
                                                    const base::Progress& progress) {
  auto terms = book.terms();
  if (!terms) return terms.error();
  std::erase_if(*terms, [&](const auto& term) { return term.value.start > start; });
  std::ranges::stable_sort(*terms, {}, [](const auto& term) { return term.value.start; });
  std::vector<reports::TermTotals> out;
  for (const auto& term : *terms) {
    progress.at(base::Stage::counting, std::ssize(out), std::ssize(*terms));
    if (progress.isStopped())
      return base::Error{base::ErrorCode::workCanceled, "the terms were not counted"};
    const auto records = book.termRecords(term.id, asOf, Reach::term);
    if (!records) return records.error();
    out.push_back(reports::termTotals(*records));
  }
  return out;
}

} // namespace gk::session
