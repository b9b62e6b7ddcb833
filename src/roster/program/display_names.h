#pragma once

#include "roster/program/program.h"
#include "roster/program/program_year.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Supervision> =
    std::to_array<std::string_view>({"direct", "indirect", "general", "public health",
                                     "collaborative", "independent", "dentist exam required",
                                     "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::YearKind> =
    std::to_array<std::string_view>({"school year", "grant year", "fiscal year"});
