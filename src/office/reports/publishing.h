#pragma once

#include "office/call/opening.h"
#include "reports/publish/published.h"
#include "session/reporting/issues.h"

namespace gk::office {

/// --issue, --merge and --grades, the same in every verb whose tables may leave the program.
Option issueOption();
Option mergeOption();
Option gradesOption();

/// Printed instead of a version on what was not issued.
inline constexpr std::string_view draftWords = "Draft: not recorded as issued. Do not hand it out.";

/// The first operand, to write in when --issue is given.
base::Result<session::Session> openToIssue(const Call& call, const Surroundings& around);

/// The schools that --merge names by code ("AH+BQ, CL+DM"), or that "auto" finds: those that went
/// out as one last, else the smallest; none without it.
base::Result<reports::Groups> groupsWanted(session::Session& session, const Call& call,
                                           const reports::TermTotals& totals,
                                           const reports::SuppressionRule& rule,
                                           std::span<const reports::Release> earlier);

/// The grades that --grades names ("K-1, 2-3, 4-8"; "each" for none as one row); empty for "auto"
/// and without it, which is left to reports::addGrades.
base::Result<std::optional<reports::GradeBands>> gradesWanted(const Call& call);

/// What is printed as the version; empty without --issue, which notes that the report went out.
/// Fails as session::readyIssue.
base::Result<std::string> issued(session::Session& session, const Call& call,
                                 const Surroundings& around, roster::TermId term,
                                 const std::string& report, const std::string& choice,
                                 const reports::Report& made, base::Date today);

/// Which group of schools would hide less, as a sentence; empty when none would.
std::string mergingAdvice(const reports::TermTotals& totals, const reports::SuppressionRule& rule,
                          std::span<const reports::Release> earlier);

} // namespace gk::office
