#pragma once

#include "reports/retention/retention_table.h"
#include "reports/term/participation.h"

namespace gk::reports {

/// The rows that a number was counted from, for use inside the program.

using ChildCount = int Participation::*;

/// The children whom this count of this school counts, or of all schools; their counts add up to
/// the number.
Table childrenBehind(const TermView& view, const Names& names, ChildCount count,
                     std::optional<roster::SchoolId> school, std::string title);

/// The sealants of the choice behind one number of its line, with what was done and what was found.
Table sealantsBehind(const TermView& view, const Names& names, const RetentionFacts& facts,
                     const Choice& choice, SealantCount count, std::string title);

} // namespace gk::reports
