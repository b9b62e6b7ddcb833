// A moment on the wall clock is no duration, so the two cannot be subtracted.
#include "base/time/clock.h"

gk::base::Milliseconds check(gk::base::Clock& clock) {
#ifdef GK_WRONG
  return clock.now() - clock.steady();
#else
  return clock.steady() - clock.steady();
#endif
}
