#pragma once

#include "base/enum_names.h"
#include "estimates/survival/survival_spell.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::estimates::SpellState> =
    std::to_array<std::string_view>({"fully retained", "failed", "not assessable", "replaced",
                                     "restored over", "crowned", "extracted", "exfoliated",
                                     "left program"});
