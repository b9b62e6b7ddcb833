#pragma once

#include "base/enum_names.h"
#include "base/identity/id.h"
#include "base/time/date.h"

#include <optional>
#include <string>

namespace gk::roster {

using base::MemberId;

enum class Role {
  hygienist,
  dentist,
  dentalAssistant,
  expandedAssistant,
  coordinator,
  manager,
  student,
  volunteer
};

/// What a member may do. Derived from the role; a program can widen or narrow it.
enum class Task { screen, decide, place, checkRetention, varnish, sign, type, clinicianOverride };
using TaskSet = base::EnumSet<Task>;

struct Member {
  using Key = MemberId;
  std::string name;
  std::string initials; ///< unique in the program
  Role role;
  std::string license; ///< number; needed for clinical tasks
  std::optional<base::Date> licenseUntil;
  TaskSet may;
  bool operator==(const Member&) const = default;
};

/// Common practice, no source; state practice acts differ and the program edits it.
TaskSet usualTasks(Role role);

/// Who says what others may: those who sign, and the program's managers. A license that ran out
/// does not end it, or no one could renew one.
bool keepsTeam(const Member& member);
/// Who keeps the lights and the lots: whoever may do more than type, and those who keep the team.
bool keepsKit(const Member& member);

/// Fine, or why not: an expired license stops clinical tasks and signing, never typing.
/// Fails with `ruleCredential`.
base::Result<base::Done> mayDo(const Member& member, Task task, base::Date on);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::Role> = std::to_array<std::string_view>(
    {"hygienist", "dentist", "dental assistant", "expanded-function assistant", "coordinator",
     "manager", "student", "volunteer"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::Task> =
    std::to_array<std::string_view>({"screen", "decide", "place", "check retention", "varnish",
                                     "sign", "type", "clinician override"});
