#include "reports/day/close_out_parts.h"

namespace gk::reports {

namespace {

using chairside::DayEnd;
using roster::ConsentState;

int& sideOf(DayEquation& equation, DayEnd end) {
  switch (end) {
  case DayEnd::sealedComplete:
  case DayEnd::sealedUnfinished:
  case DayEnd::screenedNoneNeeded:
  case DayEnd::screenedNotTreated:
  case DayEnd::recheckOnly:
    return equation.screened;
  case DayEnd::absent:
    return equation.absent;
  case DayEnd::declined:
    return equation.declined;
  case DayEnd::leftSchool:
    return equation.left;
  case DayEnd::withdrawn:
    return equation.withdrawn;
  case DayEnd::onHold:
    return equation.onHold;
  case DayEnd::notReached:
    return equation.notReached;
  }
  base::fail("no such outcome");
}

/// Whether the child belongs on the left side. Withdrawn earlier counts only where someone noted
/// it as the day's outcome.
bool isConsented(const DayView& view, const roster::ChildId& child,
                 const roster::Standing& stands) {
  if (saysYes(stands.state) || stands.state == ConsentState::onHold) return true;
  if (stands.state != ConsentState::withdrawn) return false;
  const auto* outcome = view.outcome(child);
  return (stands.since && stands.since->date() == view.records.day.date) ||
         (outcome && outcome->end == DayEnd::withdrawn);
}

} // namespace

int DayEquation::difference() const {
  return consented - screened - absent - declined - left - withdrawn - onHold - notReached;
}

DayEquation equationOf(const DayView& view) {
  DayEquation equation;
  for (const auto& child : view.lineUp()) {
    const auto stands = view.standing(child);
    const bool consented = isConsented(view, child, stands);
    const bool overridden = !consented && view.overrides.has(child);
    const auto* outcome = view.outcome(child);
    if (consented || overridden) ++equation.consented;
    if (overridden) ++equation.underOverride;
    if (outcome) ++sideOf(equation, outcome->end);
    if ((consented || overridden) && !outcome)
      equation.odd.push_back({child, view.shown(child), "consented, but has no outcome"});
    if (!consented && !overridden)
      equation.odd.push_back(
          {child, view.shown(child),
           (outcome ? "has an outcome, but " : "has a record, but ") + stands.why});
  }
  return equation;
}

} // namespace gk::reports
