#pragma once

#include "dentition/display_names.h"
#include "roster/child/child.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::dentition::Sex> =
    std::to_array<std::string_view>({"female", "male", "other", "not stated"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::LeftBecause> =
    std::to_array<std::string_view>({"moved away", "graduated", "withdrawn by family", "other"});
