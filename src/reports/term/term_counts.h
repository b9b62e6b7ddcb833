#pragma once

#include "reports/term/rows_behind.h"

#include <string_view>

namespace gk::reports {

/// Which count stands in a column of the term's tables, by its heading; none for a rate.
std::optional<Count> countUnder(std::string_view heading);
/// Likewise of a retention table.
std::optional<SealantCount> sealantCountUnder(std::string_view heading);

} // namespace gk::reports
