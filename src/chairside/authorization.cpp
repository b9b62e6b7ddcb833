#include "chairside/authorization.h"

#include "base/text/text.h"
#include "chairside/display_names.h"

#include <algorithm>

namespace gk::chairside {

using base::Error;
using base::ErrorCode;
using dentition::ToothSurfaces;

bool waitsForDentist(const roster::Program& program) {
  return program.supervision == roster::Supervision::dentistExamRequired;
}

base::Result<base::Done> checkAuthorization(const Authorization& authorization,
                                            const roster::Program& program, base::Date today) {
  const auto refuse = [](std::string why) {
    return Error{ErrorCode::ruleAuthorization, std::move(why)};
  };
  const auto& [child, teeth, dentist, how, on, until, withdrawn, note] = authorization;
  if (teeth.empty()) return refuse("name at least one tooth that the dentist authorized");
  for (const auto& [tooth, surfaces] : teeth) {
    if (std::ranges::count(teeth, tooth, &ToothSurfaces::tooth) > 1)
      return refuse("the " + tooth.words() + " is named twice; keep one");
    if (surfaces.isEmpty()) return refuse("the " + tooth.words() + " has no surface; name one");
  }
  if (on > today) return refuse(on.words() + " is in the future; check the date");
  if (until < on)
    return refuse("it would end on " + until.words() + ", before it was given; check both dates");
  if (const auto longest = on.plusDays(program.authorizationDays); until > longest)
    return refuse("the program's maximum is " +
                  base::counted(program.authorizationDays, "day", "days") + ", so through " +
                  longest.words() + " at the latest");
  return base::Done{};
}

base::Result<base::Done> mayAuthorize(const roster::Member& member, base::Date on) {
  if (member.role != roster::Role::dentist)
    return Error{ErrorCode::ruleCredential, member.name + " (" +
                                                std::string(base::displayName(member.role)) +
                                                ") may not authorize teeth; only a dentist may"};
  return roster::mayDo(member, roster::Task::decide, on);
}

bool holds(const Authorization& authorization, base::Date on) {
  return !authorization.withdrawn && authorization.on <= on && on <= authorization.until;
}

std::vector<ToothSurfaces>
authorizedTeeth(std::span<const base::Recorded<Authorization>> authorizations, base::Date on) {
  std::vector<ToothSurfaces> all;
  for (const auto& one : authorizations) {
    if (!holds(one.value, on)) continue;
    for (const auto& named : one.value.teeth) {
      const auto known = std::ranges::find(all, named.tooth, &ToothSurfaces::tooth);
      if (known == all.end())
        all.push_back(named);
      else
        known->surfaces = known->surfaces.with(named.surfaces);
    }
  }
  return all;
}

} // namespace gk::chairside
