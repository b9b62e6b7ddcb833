#pragma once

#include "base/result.h"

#include <string>
#include <utility>
#include <vector>

namespace gk::reports {

/// Files packed in this order, with one fixed date, so that the same files are the same bytes.
base::Result<std::string> zipped(const std::vector<std::pair<std::string, std::string>>& files);

} // namespace gk::reports
