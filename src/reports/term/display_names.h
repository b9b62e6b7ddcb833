#pragma once

#include "reports/retention/display_names.h"
#include "reports/term/rows_behind.h"

template <>
inline constexpr auto gk::base::displayNames<gk::reports::SealantCount> =
    std::to_array<std::string_view>({"placed", "due", "examined", "assessable", "fully retained",
                                     "partially retained", "missing", "not assessable"});
