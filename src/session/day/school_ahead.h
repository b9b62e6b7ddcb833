#pragma once

#include "session/session.h"

#include <set>

namespace gk::session {

/// A school of a term as the plan of its days needs it.
struct FormsAhead {
  int yes = 0;      ///< forms that say yes on the date, of students not seen this term
  int back = 0;     ///< forms that are back, whatever they say
  int students = 0; ///< enrolled, as was said for the term, else in the logbook
  int seen = 0;     ///< screened or checked on a day of the term
};
Result<FormsAhead> formsAhead(Session& session, roster::TermId term, roster::SchoolId school,
                              base::Date on, const std::set<roster::ChildId>& seen);

/// Of the school, who was screened or checked on a day of the term.
Result<std::set<roster::ChildId>> seenInTerm(Session& session, roster::TermId term,
                                             roster::SchoolId school, base::Date on);

} // namespace gk::session
