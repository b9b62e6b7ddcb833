#include "base/text/text.h"
#include "session/session_write.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// As it is entered: no blank name, no initials of another's. `own` is the member it corrects.
Result<roster::Member> soundMember(roster::Member member,
                                   const std::vector<Recorded<roster::Member>>& others,
                                   const std::optional<base::MemberId>& own) {
  for (auto* text : {&member.name, &member.initials})
    if (const auto filled = base::fillIn(*text, "a team member needs a name and initials"); !filled)
      return filled.error();
  for (const auto& other : others)
    if (other.id != own && other.value.initials == member.initials)
      return Error{ErrorCode::textMalformed,
                   "the initials " + member.initials + " belong to " + other.value.name};
  return member;
}

} // namespace

Result<roster::ProgramId> DeskVerbs::enterProgram(By by, const roster::Program& program) {
  const auto may = admit(Verb::enterProgram, by);
  if (!may) return may.error();
  const auto sound = roster::soundProgram(program);
  if (!sound) return sound.error();
  const auto already = this->program();
  if (already)
    return Error{ErrorCode::ruleReason,
                 "this logbook has its program already; correct that one, with a reason"};
  if (already.error().code != ErrorCode::notFound) return already.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctProgram(By by, const roster::Program& program,
                                             const std::string& reason) {
  const auto may = admit(Verb::correctProgram, by, {.reason = reason});
  if (!may) return may.error();
  const auto sound = roster::soundProgram(program);
  if (!sound) return sound.error();
  // Several where two laptops corrected it before they met.
  auto rows = book_.current<roster::Program>(store::everything());
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "this logbook has no program yet; enter it"};
  return write(*may, {}, [&](store::Act& act) { return replaceAll(act, *rows, *sound, reason); });
}

Result<base::Done> DeskVerbs::enterEligibility(By by, const roster::MealEligibility& eligibility) {
  const auto may = admit(Verb::enterEligibility, by);
  if (!may) return may.error();
  if (eligibility.percent < 0 || eligibility.percent > 100)
    return Error{ErrorCode::numberMalformed, "the share of students is 0 to 100 percent"};
  auto sound = eligibility;
  if (const auto filled =
          base::fillIn(sound.source, "say who published the share, and of which year");
      !filled)
    return filled.error();
  auto rows = book_.current<roster::MealEligibility>(store::rowsOf("term", eligibility.term));
  if (!rows) return rows.error();
  std::erase_if(*rows, [&](const auto& row) { return row.value.school != eligibility.school; });
  return write(*may, {},
               [&](store::Act& act) { return replaceAll(act, *rows, sound, "entered again"); });
}

namespace {

using roster::keepsTeam;

/// Whether a member gets a right by it, that to type apart; a dentist's word is one too.
bool isRaised(const roster::Member& before, const roster::Member& after) {
  auto more = after.may.without(before.may);
  more.remove(roster::Task::type);
  const bool isDentist = after.role == roster::Role::dentist && before.role != after.role;
  return !more.isEmpty() || isDentist || (keepsTeam(after) && !keepsTeam(before));
}

} // namespace

/// No one gives rights to herself while another could.
Result<base::Done> DeskVerbs::mayGive(const Admission& may,
                                      const std::optional<base::MemberId>& to) {
  const auto settingUp = isSettingUp();
  if (!settingUp) return settingUp.error();
  if (*settingUp) return base::Done{};
  const auto& author = may.author();
  const auto everyone = members();
  if (!everyone) return everyone.error();
  // No one is left who could, such as after two laptops each took it from the other's.
  if (std::ranges::none_of(*everyone, [](const auto& one) { return keepsTeam(one.value); }))
    return base::Done{};
  if (!keepsTeam(author.value))
    return Error{
        ErrorCode::ruleCredential,
        author.value.name +
            " does not sign and is not a manager, so another member must set the team's rights"};
  if (author.id != to) return base::Done{};
  if (std::ranges::any_of(*everyone,
                          [&](const auto& one) { return one.id != to && keepsTeam(one.value); }))
    return Error{
        ErrorCode::ruleCredential,
        "members cannot give themselves rights; another member who signs, or a manager, can"};
  return base::Done{};
}

Result<base::MemberId> DeskVerbs::enterMember(By by, const roster::Member& member) {
  const auto may = admit(Verb::enterMember, by);
  if (!may) return may.error();
  auto others = members();
  if (!others) return others.error();
  const auto sound = soundMember(member, *others, {});
  if (!sound) return sound.error();
  const roster::Member nobody{.name = {},
                              .initials = {},
                              .role = roster::Role::volunteer,
                              .license = {},
                              .licenseUntil = {},
                              .may = {}};
  if (isRaised(nobody, *sound))
    if (const auto given = mayGive(*may, {}); !given) return given.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctMember(By by, base::MemberId id, const roster::Member& member,
                                            const std::string& reason) {
  const auto may = admit(Verb::correctMember, by, {.reason = reason});
  if (!may) return may.error();
  return changeMember(*may, id, member, reason);
}

Result<base::Done> DeskVerbs::retireMember(By by, base::MemberId who, const std::string& reason,
                                           const OwnPin& pin) {
  const auto may = admit(Verb::retireMember, by, {.reason = reason, .pin = pin});
  if (!may) return may.error();
  const auto known = only<roster::Member>(store::subjectIs(who), "team member");
  if (!known) return known.error();
  auto gone = known->value;
  gone.may = {};
  return changeMember(*may, who, gone, reason);
}

Result<base::Done> DeskVerbs::changeMember(const Admission& may, base::MemberId id,
                                           const roster::Member& member,
                                           const std::string& reason) {
  auto others = members();
  if (!others) return others.error();
  const auto sound = soundMember(member, *others, id);
  if (!sound) return sound.error();
  const auto mayType = [](const roster::Member& one) { return one.may.has(roster::Task::type); };
  if (!mayType(*sound) && std::ranges::none_of(*others, [&](const auto& other) {
        return other.id != id && mayType(other.value);
      }))
    return Error{ErrorCode::ruleCredential,
                 "no other team member may type, so nothing more could be entered; let "
                 "another one type first"};
  auto rows = book_.current<roster::Member>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such team member"};
  const bool isLast = std::ranges::none_of(
      *others, [&](const auto& other) { return other.id != id && keepsTeam(other.value); });
  if (isLast && keepsTeam(rows->back().value) && !keepsTeam(*sound))
    return Error{ErrorCode::ruleCredential,
                 "no other team member signs or is a manager, so no one could set the team's "
                 "rights; let another one sign first"};
  if (isRaised(rows->back().value, *sound))
    if (const auto given = mayGive(may, id); !given) return given.error();
  const auto keys = standingKeys(id);
  if (!keys) return keys.error();
  auto written = write(may, {}, [&](store::Act& act) {
    replaceAll(act, *rows, *sound, reason);
    if (sound->may.isEmpty())
      for (const auto& key : *keys)
        revoke(act, key, reason);
    return base::Done{};
  });
  if (written && sound->may.isEmpty()) forgetKey(id);
  return written;
}

} // namespace gk::session
