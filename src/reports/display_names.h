#pragma once

#include "reports/day/display_names.h"
#include "reports/report.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::reports::ReportKind> =
    std::to_array<std::string_view>({"term totals", "retention", "quality", "findings",
                                     "prevention", "referral follow-up", "lot and light trace",
                                     "payers", "terms compared", "cost", "state", "funder summary",
                                     "funder annex", "school page"});
