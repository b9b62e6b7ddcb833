#pragma once

#include "base/identity/id.h"
#include "base/time/date.h"
#include "roster/program/program.h"

#include <string>

namespace gk::followup {

using IssueId = base::Id<struct IssueTag>;

/// That a report left the program, and the figures that it left with. Never a name: it holds what
/// the report printed, and reports are made without the vault.
struct IssuedReport {
  using Key = IssueId;
  roster::TermId term;
  std::string report;  ///< which of them: "funder"
  std::string choice;  ///< what was chosen in it, such as a school; empty when nothing was
  int version = 1;     ///< the same again where the figures are the same
  base::Date issued;   ///< by whom says the entry
  std::string figures; ///< the cells of its tables, as reports::figuresOf writes them
  std::string digest;  ///< of `figures`
  std::string release; ///< the counts behind a published one, as reports::toLines; else empty
  bool operator==(const IssuedReport&) const = default;
};

} // namespace gk::followup
