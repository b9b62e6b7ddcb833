#include "session/day/school_ahead.h"

#include <algorithm>

namespace gk::session {

Result<std::set<roster::ChildId>> seenInTerm(Session& session, roster::TermId term,
                                             roster::SchoolId school, base::Date on) {
  const auto lines = session.formLines(term, on, school);
  const auto days = session.days(term);
  if (!lines) return lines.error();
  if (!days) return days.error();
  std::set<roster::DayId> ofTerm;
  for (const auto& day : *days)
    ofTerm.insert(day.id);
  const auto isOfTerm = [&](const auto& row) { return ofTerm.contains(row.value.day); };
  std::set<roster::ChildId> seen;
  for (const auto& line : *lines) {
    const auto screened = session.screenings(line.of.child);
    const auto checked = session.checks(line.of.child);
    if (!screened) return screened.error();
    if (!checked) return checked.error();
    if (std::ranges::any_of(*screened, isOfTerm) || std::ranges::any_of(*checked, isOfTerm))
      seen.insert(line.of.child);
  }
  return seen;
}

Result<FormsAhead> formsAhead(Session& session, roster::TermId term, roster::SchoolId school,
                              base::Date on, const std::set<roster::ChildId>& seen) {
  const auto lines = session.formLines(term, on, school);
  const auto enrolled = session.enrollments(term);
  if (!lines) return lines.error();
  if (!enrolled) return enrolled.error();
  FormsAhead made{.seen = static_cast<int>(seen.size())};
  for (const auto& row : *enrolled)
    if (row.value.school == school) made.students += row.value.students;
  made.students = std::max(made.students, static_cast<int>(lines->size()));
  for (const auto& line : *lines) {
    const auto state = line.of.state;
    made.back += state != roster::ConsentState::notReturned ? 1 : 0;
    const bool isYes =
        state == roster::ConsentState::yes || state == roster::ConsentState::yesWithLimits;
    made.yes += isYes && !seen.contains(line.of.child) ? 1 : 0;
  }
  return made;
}

} // namespace gk::session
