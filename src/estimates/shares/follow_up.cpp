#include "estimates/shares/follow_up.h"

#include "estimates/numbers/checks.h"

namespace gk::estimates {

base::Result<FollowUpBounds> followUpBounds(const FollowUp& counts, Interval ifNotExamined) {
  const auto& [due, examined, kept] = counts;
  if (auto checked = checkCount("The count due", due); !checked) return checked.error();
  if (auto checked = checkPart("Follow-up", kept, examined); !checked) return checked.error();
  if (due == 0) return refused("Nothing was due for a check, so there is no follow-up to state.");
  if (examined > due)
    return refused("More were examined (" + shown(examined) + ") than were due (" + shown(due) +
                   "); count as due what was placed in the window's cohort.");
  if (auto checked = checkShare("The low share among those not examined", ifNotExamined.low);
      !checked)
    return checked.error();
  if (auto checked = checkShare("The high share among those not examined", ifNotExamined.high);
      !checked)
    return checked.error();
  if (ifNotExamined.low > ifNotExamined.high)
    return refused("The range among those not examined runs from high to low; swap its ends.");

  const double missing = due - examined;
  FollowUpBounds out{examined / due, std::nullopt,
                     Interval{(kept + missing * ifNotExamined.low) / due,
                              (kept + missing * ifNotExamined.high) / due}};
  if (examined > 0) out.observed = kept / examined;
  return out;
}

} // namespace gk::estimates
