#pragma once

#include "dentition/display_names.h"
#include "kit/light.h"
#include "kit/material.h"
#include "kit/readiness.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::kit::LightType> =
    std::to_array<std::string_view>({"LED", "halogen", "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::kit::LightGrade> =
    std::to_array<std::string_view>({"green", "amber", "red", "not comparable"});

template <>
inline constexpr auto gk::base::displayNames<gk::kit::MaterialKind> =
    std::to_array<std::string_view>({"light-cure sealant", "self-cure sealant", "glass ionomer",
                                     "etchant", "bonding agent", "varnish"});

template <>
inline constexpr auto gk::base::displayNames<gk::kit::LotRefusal> =
    std::to_array<std::string_view>({"expired", "set aside", "used up"});

template <>
inline constexpr auto gk::base::displayNames<gk::kit::Contains> =
    std::to_array<std::string_view>({"acrylate", "rosin", "latex", "fluoride"});

template <>
inline constexpr auto gk::base::displayNames<gk::kit::ReadinessItem> =
    std::to_array<std::string_view>({"air line", "curing light", "lots and expiry", "sterilizer",
                                     "suction and water", "eye protection", "emergency kit",
                                     "clock"});

template <>
inline constexpr auto gk::base::displayNames<gk::kit::ReadinessAnswer> =
    std::to_array<std::string_view>({"done", "failed", "not applicable", "skipped"});
