#pragma once

#include "roster/team/member_pin.h"
#include "roster/team/team.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::roster::PinState> =
    std::to_array<std::string_view>({"none", "set", "to be chosen"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Role> = std::to_array<std::string_view>(
    {"hygienist", "dentist", "dental assistant", "expanded-function assistant", "coordinator",
     "manager", "student", "volunteer"});

template <>
inline constexpr auto gk::base::displayNames<gk::roster::Task> = std::to_array<std::string_view>(
    {"screen", "choose treatment", "place sealants", "check retention", "apply varnish", "sign",
     "enter records", "clinician override"});
