#include "session/reporting/recall.h"

#include "session/reader_held.h"

namespace gk::session {

Result<reports::Table> recallList(Reader& book, const reports::TermRecords& records,
                                  const reports::Recalled& what) {
  if (!book.isUnlocked())
    return base::Error{base::ErrorCode::vaultLocked, "unlock the logbook to see names"};
  reports::Names names;
  reports::CallPeople people;
  for (const auto child : reports::childrenTouched(records, what)) {
    const auto known = book.identity(child);
    if (!known && !hasNoName(known.error())) return known.error();
    if (!known) continue;
    names.emplace(child, known->shownName());
    for (const auto& one : known->guardians)
      people[child].push_back({one.name, one.relation, one.phone, one.language});
  }
  return reports::recallList(records, what, names, people);
}

} // namespace gk::session
