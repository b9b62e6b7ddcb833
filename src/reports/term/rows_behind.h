#pragma once

#include "base/enum_names.h"
#include "reports/print/table.h"
#include "reports/retention/retention_totals.h"
#include "reports/term/participation.h"

namespace gk::reports {

/// The rows that a number was counted from, for use inside the program.

using Count = int Participation::*;

/// The children whom this count of this school counts, or of all schools; their counts add up to
/// the number.
Table childrenBehind(const TermRecords& records, const Names& names, Count count,
                     std::optional<roster::SchoolId> school, std::string title);

/// Which of a retention line's numbers.
enum class SealantCount { placed, due, examined, assessable, whole, part, lost, cannotAssess };

/// The sealants of the choice behind one number of its line, with what was done and what was found.
Table sealantsBehind(const TermRecords& records, const Names& names, const RetentionFacts& facts,
                     const Choice& choice, SealantCount count, std::string title);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::SealantCount> =
    std::to_array<std::string_view>({"placed", "due", "examined", "assessable", "whole", "part",
                                     "lost", "cannot assess"});
