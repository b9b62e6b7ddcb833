#include "session/session_write.h"

#include <algorithm>

// Days planned ahead: they open nothing and promise nothing.
namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<std::string> FormVerbs::planQuestion(const roster::PlannedDay& plan,
                                            std::optional<roster::PlannedDayId> of) {
  const auto term = only<roster::Term>(store::subjectIs(plan.term), "term");
  if (!term) return term.error();
  if (auto odd = roster::dateQuestion(term->value, plan.date); !odd.empty()) return odd;
  const auto others = plannedDays(plan.term);
  if (!others) return others.error();
  for (const auto& other : *others)
    if ((!of || other.id != *of) && !other.value.canceled && other.value.date == plan.date &&
        other.value.team == plan.team)
      return "team " + std::to_string(plan.team) + " has another day planned on " +
             plan.date.words();
  return std::string();
}

Result<base::Done> FormVerbs::mayPlan(const roster::PlannedDay& plan,
                                      std::optional<roster::PlannedDayId> of, Confirmed anyway) {
  if (const auto sound = roster::checkPlan(plan); !sound) return sound.error();
  const auto school = only<roster::School>(store::subjectIs(plan.school), "school");
  if (!school) return school.error();
  if (plan.canceled) return base::Done{};
  if (const auto works = worksAt(plan.school, plan.date); !works) return works.error();
  const auto odd = planQuestion(plan, of);
  if (!odd) return odd.error();
  if (!odd->empty() && anyway == Confirmed::no)
    return Error{ErrorCode::ruleDate, *odd + "; choose another date, or confirm this one"};
  return base::Done{};
}

Result<roster::PlannedDayId> FormVerbs::planDay(By by, const roster::PlannedDay& plan,
                                                Confirmed anyway) {
  const auto may = admit(Verb::planDay, by);
  if (!may) return may.error();
  if (const auto sound = mayPlan(plan, {}, anyway); !sound) return sound.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(plan); });
}

Result<base::Done> FormVerbs::correctPlan(By by, roster::PlannedDayId id,
                                          const roster::PlannedDay& plan, const std::string& reason,
                                          Confirmed anyway) {
  const auto may = admit(Verb::correctPlan, by, {.reason = reason});
  if (!may) return may.error();
  auto old = only<roster::PlannedDay>(store::subjectIs(id), "planned day");
  if (!old) return old.error();
  if (const auto sound = mayPlan(plan, id, anyway); !sound) return sound.error();
  return write(*may, {}, [&](store::Act& act) {
    act.correct(*old, plan, reason);
    return base::Done{};
  });
}

List<roster::PlannedDay> FormVerbs::plannedDays(roster::TermId term) {
  auto plans = book_.current<roster::PlannedDay>(store::rowsOf("term", term));
  if (plans)
    std::ranges::stable_sort(
        *plans, {}, [](const auto& plan) { return std::pair(plan.value.date, plan.value.team); });
  return plans;
}

} // namespace gk::session
