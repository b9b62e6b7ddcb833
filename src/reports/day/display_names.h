#pragma once

#include "followup/display_names.h"
#include "reports/day/close_out.h"
#include "reports/day/day_exception.h"
#include "reports/letters/display_names.h"

template <>
inline constexpr auto
    gk::base::displayNames<gk::reports::BlockerKind> = std::to_array<std::string_view>(
        {"no outcome", "two outcomes", "outcome disagrees", "no consent", "urgent, not called",
         "no referral", "tooth without a reason", "isolated teeth unfinished", "light not read",
         "printed list missing", "late on a joined card"});

template <>
inline constexpr std::array
    gk::base::displayNames<gk::reports::ExceptionKind> = std::to_array<std::string_view>(
        {"short step", "interrupted cure", "contamination", "frosty not checked",
         "consent override", "light reads red", "not on the roster", "isolation item missing",
         "equipment not ready", "letter missing", "letter given in error", "record in question",
         "light reading skipped", "printed list missing", "printed lists not counted",
         "agreement override"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::Fixer> =
    std::to_array<std::string_view>({"no action needed", "clinician", "coordinator"});
