#include "store/authorization_rows.h"
#include "store/book.h"
#include "store/book_queries.h"
#include "store/chairside_rows.h"
#include "store/closing_rows.h"
#include "store/consent_rows.h"
#include "store/followup_rows.h"
#include "store/key_rows.h"
#include "store/kit_rows.h"
#include "store/people_rows.h"
#include "store/record_list.h"
#include "store/roster_rows.h"
#include "store/trouble.h"
#include "store/year_rows.h"

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
