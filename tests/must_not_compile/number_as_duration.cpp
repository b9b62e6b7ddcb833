// Seconds or milliseconds: a bare number does not say.
#include "base/time/clock.h"

void check(gk::base::ManualClock& clock) {
#ifdef GK_WRONG
  clock.advance(20);
#else
  clock.advance(gk::base::Seconds{20});
#endif
}
