#pragma once

#include "followup/display_names.h"
#include "reports/letters/letter_facts.h"
#include "reports/letters/letters_due.h"

template <>
inline constexpr auto gk::base::displayNames<gk::reports::Phoned> =
    std::to_array<std::string_view>({"no", "tried", "reached"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::LetterStand> =
    std::to_array<std::string_view>({"missing", "to replace", "given out by mistake",
                                     "do not hand out", "queued", "printed", "handed out",
                                     "returned", "parent told"});
