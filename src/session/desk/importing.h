#pragma once

#include "session/cards/new_child.h"
#include "session/door.h"

namespace gk::session {

/// No one of them may be a child who is here already, whom no person said to be another and who is
/// not `onList` as someone else, or, unless that is confirmed, who stands before it in the list:
/// `ruleSameChild` with the numbers.
Result<base::Done> areOtherChildren(Reader& book, const std::vector<NewChild>& children,
                                    Confirmed areOthersInList,
                                    const std::set<roster::ChildId>& onList = {});

/// As the list says it, open until the team has asked the family.
inline roster::MedicalFlag flagOf(const roster::RosterAlert& alert, roster::ChildId child) {
  return {.child = child,
          .kind = alert.kind,
          .action = alert.action,
          .detail = "school's list, to be confirmed: " + alert.detail,
          .decided = {}};
}

} // namespace gk::session
