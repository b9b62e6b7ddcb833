#pragma once

#include "reports/publish/published_counts.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::reports {

/// A release as the logbook keeps it, and back; none from text that is damaged.
std::string toLines(const Release& release);
std::optional<Release> releaseFrom(std::string_view lines);

/// Whether two releases counted the same children and teeth alike, whatever was hidden and
/// whichever schools or grades were one row. What only one of them has is not compared.
bool countedAlike(const Release& one, const Release& other);

/// Those of the very term, in their order.
std::vector<Release> ofSameTerm(std::span<const Release> releases);

} // namespace gk::reports
