#pragma once

#include "base/random.h"
#include "base/time/clock.h"

namespace gk::session {

/// Time and chance, passed in; both outlive whatever is given them.
struct World {
  base::Clock& clock;
  base::Random& random;
};

} // namespace gk::session
