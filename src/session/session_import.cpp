#include "session/session_write.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<base::Done> DeskVerbs::takeBackImport(By by, roster::ChildId oneOfThem,
                                             const std::string& reason) {
  const auto may = admit(Verb::takeBackImport, by, {.reason = reason});
  if (!may) return may.error();
  // A thing's identity is its first row's, and that row is of the act that brought it.
  const auto act = book_.actOf(base::EntryId(oneOfThem.uuid()));
  if (!act) return act.error();
  if (act->empty() || act->front().verb != ruleOf(Verb::importRoster).name)
    return Error{ErrorCode::notFound, "no roster import brought this student"};
  std::set<base::EntryId> ofImport;
  for (const auto& row : *act)
    ofImport.insert(row.stamp.entry);
  std::vector<base::EntryId> entries;
  for (const auto& row : *act) {
    if (row.kind != "child") continue;
    auto about = book_.entriesAbout(roster::ChildId(row.subject));
    if (!about) return about.error();
    if (about->empty()) continue; // taken back one by one before
    const bool isUntouched =
        std::ranges::all_of(*about, [&](const auto& entry) { return ofImport.contains(entry); });
    if (!isUntouched)
      return Error{ErrorCode::ruleReason,
                   "something is recorded on a student of this import already, so it stays; "
                   "correct the students that are wrong one by one"};
    entries.insert(entries.end(), about->begin(), about->end());
  }
  if (entries.empty()) return Error{ErrorCode::notFound, "this import was already undone"};
  forgetRoll();
  return write(*may, {}, [&](store::Act& writing) {
    for (const auto& entry : entries)
      writing.retract(entry, reason);
    return base::Done{};
  });
}

} // namespace gk::session
