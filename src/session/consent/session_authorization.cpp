#include "base/text/text.h"
#include "session/session_write.h"

namespace gk::session {

using base::Error;
using base::ErrorCode;
using chairside::Authorization;

Result<std::vector<chairside::AuthorizationId>>
Session::authorize(By by, const std::vector<Authorization>& authorizations) {
  const auto may = admit(Verb::authorize, by);
  if (!may) return may.error();
  const auto today = world_.clock.now().date();
  auto program = this->program();
  if (!program) return program.error();
  for (const auto& one : authorizations) {
    const auto sound = chairside::checkAuthorization(one, program->value, today);
    if (!sound) return sound.error();
    auto dentist = only<roster::Member>(store::subjectIs(one.dentist), "team member");
    if (!dentist) return dentist.error();
    if (const auto fit = chairside::mayAuthorize(dentist->value, one.on); !fit) return fit.error();
  }
  std::optional<roster::ChildId> only;
  if (authorizations.size() == 1) only = authorizations.front().child;
  return write(*may, only, [&](store::Act& act) {
    std::vector<chairside::AuthorizationId> ids;
    for (const auto& one : authorizations)
      ids.push_back(act.add(one));
    return ids;
  });
}

Result<base::Done> Session::withdrawAuthorization(By by, const Recorded<Authorization>& old,
                                                  const std::string& reason) {
  const auto may =
      admit(Verb::withdrawAuthorization, by, {.child = old.value.child, .reason = reason});
  if (!may) return may.error();
  if (base::isBlank(reason)) return Error{ErrorCode::ruleReason, "say why, and who withdraws it"};
  const auto now = asItStands(old);
  if (!now) return now.error();
  auto withdrawn = now->value;
  withdrawn.withdrawn = true;
  return write(*may, withdrawn.child, [&](store::Act& act) {
    act.correct(*now, withdrawn, reason);
    return base::Done{};
  });
}

Result<base::Done> Door::areAuthorized(roster::ChildId child,
                                       const std::vector<dentition::ToothSurfaces>& teeth,
                                       base::Date on) {
  auto program = this->program();
  if (!program) return program.error();
  if (!chairside::waitsForDentist(program->value)) return base::Done{};
  auto named = authorizations(child);
  if (!named) return named.error();
  const auto missing = dentition::without(teeth, chairside::authorizedTeeth(*named, on));
  if (missing.empty()) return base::Done{};
  return Error{ErrorCode::ruleAuthorization,
               "no dentist has authorized: " + dentition::shown(missing, program->value.notation)};
}

} // namespace gk::session
