#pragma once

#include "reports/publish/issue.h"
#include "reports/report.h"
#include "session/reader.h"

namespace gk::session {

/// A report that is about to go out: what is printed on it, and the record that it went.
struct ReadyIssue {
  std::string words; ///< as reports::versionOf
  followup::IssuedReport record;
};

/// `report` is the name of the kind, `choice` what was chosen in it. Compares with what went out
/// before; Session::enterIssue notes it once it is printed or saved. Fails with `ruleSmallCounts`
/// for what lets small counts be worked out: that may not go out.
Result<ReadyIssue> readyIssue(Reader& book, roster::TermId term, const std::string& report,
                              const std::string& choice, const reports::Report& made,
                              base::Date today);

/// What was published of the term, oldest first, each once; state reports of years that it lies in
/// are among it. Before it that of the other terms, with what it has to do with this one. Fails
/// with `storeDamaged`.
Result<std::vector<reports::Release>> releases(Reader& book, roster::TermId term);

/// The same of several terms together, as those of a year.
Result<std::vector<reports::Release>> releases(Reader& book,
                                               std::span<const Recorded<roster::Term>> mine);

/// The newest earlier term of which a page for funders or schools went out, as its last one says.
Result<std::optional<reports::EarlierTerm>> termBefore(Reader& book, roster::TermId term);

} // namespace gk::session
