#pragma once

#include "base/enum_names.h"
#include "dentition/surfaces.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::dentition::Surface> =
    std::to_array<std::string_view>({"occlusal", "buccal pit", "lingual groove"});

template <>
inline constexpr auto gk::base::displayNames<gk::dentition::Quadrant> =
    std::to_array<std::string_view>({"upper right", "upper left", "lower left", "lower right"});
