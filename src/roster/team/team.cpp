#include "roster/team/team.h"

#include "roster/team/display_names.h"

namespace gk::roster {

TaskSet usualTasks(Role role) {
  using enum Task;
  switch (role) {
  case Role::hygienist:
  case Role::dentist:
    return {screen, decide, place, checkRetention, varnish, sign, type, clinicianOverride};
  case Role::expandedAssistant:
    return {place, varnish, type};
  case Role::dentalAssistant:
    return {varnish, type};
  case Role::student:
    return {screen, type};
  case Role::coordinator:
    return {sign, type};
  case Role::manager:
  case Role::volunteer:
    return {type};
  }
  base::fail("no such role");
}

bool keepsTeam(const Member& member) {
  return member.may.has(Task::sign) || member.role == Role::manager;
}

bool keepsKit(const Member& member) {
  return keepsTeam(member) || !member.may.without({Task::type}).isEmpty();
}

base::Result<base::Done> mayDo(const Member& member, Task task, base::Date on) {
  const auto who = member.name + " (" + std::string(base::displayName(member.role)) + ")";
  if (!member.may.has(task))
    return base::Error{base::ErrorCode::ruleCredential,
                       who + " may not: " + std::string(base::displayName(task))};
  const bool lapses = task != Task::type && member.licenseUntil.has_value();
  if (lapses && *member.licenseUntil < on)
    return base::Error{
        base::ErrorCode::ruleCredential,
        who + " had a license until " + member.licenseUntil->words() +
            "; renew it on the desk before: " + std::string(base::displayName(task))};
  return base::Done{};
}

} // namespace gk::roster
