#pragma once

#include "base/identity/entry.h"

#include <string>

namespace gk::session {

/// The last letters of a laptop's identity, as the close-out names it.
std::string shortName(base::LaptopId laptop);

} // namespace gk::session
