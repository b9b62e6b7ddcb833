#pragma once

#include "office/opening.h"
#include "reports/published.h"
#include "session/issues.h"

namespace gk::office {

/// --issue and --merge, the same in every verb whose tables may leave the program.
Option issueOption();
Option mergeOption();

/// Printed instead of a version on what was not issued.
inline constexpr std::string_view draftWords =
    "Draft: not noted as issued, so not to be handed out; --issue notes it";

/// The first operand, to write in when --issue is given.
base::Result<session::Session> openToIssue(const Call& call, const Surroundings& around);

/// The schools that --merge names by code ("AH+BQ, CL+DM"), or that "auto" finds; none without it.
base::Result<reports::Groups> groupsWanted(session::Session& session, const Call& call,
                                           const reports::TermTotals& totals,
                                           const reports::SuppressionRule& rule,
                                           std::span<const reports::Release> earlier);

/// What is printed as the version. With --issue it is noted that the report went out.
base::Result<std::string> issued(session::Session& session, const Call& call,
                                 const session::ReadyIssue& ready);

/// Which group of schools would hide less, as a sentence; empty when none would.
std::string mergingAdvice(const reports::TermTotals& totals, const reports::SuppressionRule& rule,
                          std::span<const reports::Release> earlier);

} // namespace gk::office
