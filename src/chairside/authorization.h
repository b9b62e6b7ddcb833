#pragma once

#include "base/identity/entry.h"
#include "dentition/surfaces.h"
#include "roster/child/child.h"
#include "roster/program/program.h"
#include "roster/team/team.h"

#include <span>
#include <string>
#include <vector>

namespace gk::chairside {

using AuthorizationId = base::Id<struct AuthorizationTag>;

enum class AuthorizedHow { examAtSchool, recordReview, phoneCall };

/// That a dentist lets these surfaces be sealed, repaired or covered. Asked for only where the
/// program waits for a dentist's exam; those that hold on a day add up.
struct Authorization {
  using Key = AuthorizationId;
  roster::ChildId child;
  std::vector<dentition::ToothSurfaces> teeth; ///< at least one, no tooth twice
  base::MemberId dentist;
  AuthorizedHow how;
  base::Date on;          ///< when the dentist said so
  base::Date until;       ///< the last day on which it holds
  bool withdrawn = false; ///< by a later word; what was placed before stays
  std::string note{};
  bool operator==(const Authorization&) const = default;
};

/// Whether nothing may be placed in a mouth before a dentist has named the tooth.
bool waitsForDentist(const roster::Program& program);

/// Fails with `ruleAuthorization`: no tooth, a tooth twice, said in the future, over before it was
/// said, or held for longer than the program lets one hold.
base::Result<base::Done> checkAuthorization(const Authorization& authorization,
                                            const roster::Program& program, base::Date today);
/// A dentist, entitled to decide on that date; else `ruleCredential`.
base::Result<base::Done> mayAuthorize(const roster::Member& member, base::Date on);

bool holds(const Authorization& authorization, base::Date on);
/// All that those of one child let be treated on that date, each tooth once, in the order named.
std::vector<dentition::ToothSurfaces>
authorizedTeeth(std::span<const base::Recorded<Authorization>> authorizations, base::Date on);

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::AuthorizedHow> =
    std::to_array<std::string_view>({"exam at school", "record review", "phone call"});
