#pragma once

#include "roster/child/child.h"
#include "roster/days/clinic_day.h"
#include "session/rights/verbs.h"

#include <string>

namespace gk::session {

/// Where undo is asked for; it takes back only what was done there.
/// Chair: this child's acts since this laptop last confirmed the identity, that included. Board and
/// other pages: that page's last act. Only today's acts, and none across signatures, an import, a
/// letter handed out, a backup or a report that went out, nor of a signed day.
struct UndoAt {
  base::Station station;
  std::optional<roster::DayId> day{};     ///< chair and board
  std::optional<roster::ChildId> child{}; ///< the one in the chair
};

/// An act that undo would take back, or redo would do again.
struct UndoableAct {
  base::EntryId act;
  Verb verb;
  std::string words; ///< "Sealant placed, upper right first molar, Mina T."
  bool asksReason;   ///< sealant has flowed: taking it back is a correction
};

} // namespace gk::session
