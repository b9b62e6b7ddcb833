#pragma once

#include "reports/publish/published_counts.h"

#include <optional>
#include <string>
#include <string_view>

namespace gk::reports {

/// A release as the logbook keeps it, and back; none from text that is damaged.
std::string toLines(const Release& release);
std::optional<Release> releaseFrom(std::string_view lines);

} // namespace gk::reports
