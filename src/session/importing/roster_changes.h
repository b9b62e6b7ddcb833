#pragma once

#include "session/importing/roster_plan.h"

namespace gk::session {

/// Who the line says it is; nothing that only a logbook has.
Identity identityOf(const roster::RosterLine& line);

/// The form of a line, as the term's rules have it; none when nothing came back. `incomplete` says
/// why a yes is entered as incomplete.
std::optional<PlannedForm> formOf(const roster::RosterLine& line, const RosterAim& aim,
                                  std::string& incomplete);

/// What the line changes of a child of the logbook; `what` is empty where nothing is new. A blank
/// cell changes nothing. Where the list names a guardian who is known, phone, relation and language
/// are the list's; another is added. A phone without a name is the first guardian's.
Result<PlannedChange> changeOf(Session& session, const KnownChild& known,
                               const roster::RosterLine& line, const RosterAim& aim);

} // namespace gk::session
