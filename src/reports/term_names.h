#pragma once

#include "reports/retention_names.h"
#include "reports/rows_behind.h"

template <>
inline constexpr auto gk::base::displayNames<gk::reports::SealantCount> =
    std::to_array<std::string_view>({"placed", "due", "examined", "assessable", "fully retained",
                                     "partially retained", "missing", "not assessable"});
