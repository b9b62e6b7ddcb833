#pragma once

#include "exchange/papers.h"

namespace gk::session {

/// Sealed papers that were opened, as files.
using exchange::writeOut;

} // namespace gk::session
