#pragma once

#include "roster/keys/keys.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Capacity> =
    std::to_array<std::string_view>({"clinical", "completeness"});
