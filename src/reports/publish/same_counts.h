#pragma once

#include "reports/publish/published_counts.h"

namespace gk::reports {

/// Whether two releases counted the same children and teeth alike, whatever was hidden and
/// whichever schools or grades were one row. What only one of them has is not compared.
bool countedAlike(const Release& one, const Release& other);

} // namespace gk::reports
