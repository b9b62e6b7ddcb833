#include "roster/consent/form_handout.h"

#include "base/text/text.h"
#include "roster/days/planned_day.h"

namespace gk::roster {

using base::Error;
using base::ErrorCode;

base::Result<base::Done> checkHandout(const FormHandout& handout, base::Date today) {
  if (handout.copies < 0 || handout.copies > mostCopies)
    return Error{ErrorCode::numberMalformed, "forms handed out are 0 to 5,000 at once"};
  if (handout.on > today)
    return Error{ErrorCode::ruleDate, "forms cannot have been handed out after today"};
  return base::Done{};
}

base::Result<base::Done> checkPlan(const PlannedDay& plan) {
  if (plan.chairs < 1 || plan.chairs > mostPlannedChairs)
    return Error{ErrorCode::numberMalformed, "a day has 1 to 20 chairs"};
  if (plan.team < 1 || plan.team > mostPlannedTeams)
    return Error{ErrorCode::numberMalformed, "teams are numbered 1 to 9"};
  return base::Done{};
}

} // namespace gk::roster
