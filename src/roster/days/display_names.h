#pragma once

#include "roster/days/day_cost.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::roster::CostKind> =
    std::to_array<std::string_view>({"staff", "supplies", "travel", "equipment", "other"});
