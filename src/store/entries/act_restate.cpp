#include "store/book.h"
#include "store/records/authorization_rows.h"
#include "store/records/chairside_rows.h"
#include "store/records/closing_rows.h"
#include "store/records/consent_rows.h"
#include "store/records/followup_rows.h"
#include "store/records/key_rows.h"
#include "store/records/kit_rows.h"
#include "store/records/people_rows.h"
#include "store/records/record_list.h"
#include "store/records/roster_rows.h"
#include "store/records/year_rows.h"
#include "store/rows/book_queries.h"
#include "store/sqlite/trouble.h"

namespace gk::store {

void Act::restate(base::EntryId source, base::EntryId replaced, const std::string& reason) {
  base::require(!reason.empty(), "what is said again needs a reason");
  auto statement = connection_.prepare(
      "SELECT k.name, coalesce(e.subject, e.id), coalesce(e.author, a.author) FROM entry AS e" +
      std::string(withAct) + " CROSS JOIN entry_kind AS k ON k.number = e.kind WHERE e.id = ?1");
  statement.bind(1, source);
  if (!statement.step())
    throw Trouble({base::ErrorCode::storeDamaged, "a row that is to be said again is not there"});
  const auto [kind, subject, author] =
      statement.columns<std::string, base::EntryId, std::optional<base::MemberId>>();
  const auto now = quoting(author);
  const auto where = rowsOf("e.id", source);
  forEachRecord([&]<class T>() {
    if (Rows<T>::table != kind) return;
    insertAgain<T>(where, Replaced{subject, replaced, reason});
  });
  by_ = now;
}

} // namespace gk::store
