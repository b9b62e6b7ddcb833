#pragma once

#include <string>
#include <utility>
#include <vector>

namespace gk::test {

using Parts = std::vector<std::pair<std::string, std::string>>;

/// A packed file of these parts, as libzip makes it.
std::string packed(const Parts& parts);

} // namespace gk::test
