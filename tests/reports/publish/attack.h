#pragma once

#include "reports/publish/suppression.h"

#include <string>
#include <vector>

namespace gk::test {

/// Which small counts a reader could narrow down too far; empty when none.
///
/// For each value around the true one, another table of whole numbers is looked for that has it,
/// agrees with everything shown, and keeps every sum of the system that it is given: what those
/// sums leave out, .ci/attack-pages looks for. Each one found is checked here cell by cell, so that
/// a fault of the search can only raise a false alarm, never hide a leak. Looked at twice: by the
/// numbers alone, and with the words taken at their strongest.
std::vector<std::string> attack(const reports::CountSystem& system,
                                const reports::Suppressed& shown,
                                const reports::SuppressionRule& rule);

} // namespace gk::test
