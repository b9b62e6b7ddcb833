// The strength of a light and the time it shines cannot be mixed up.
#include "kit/light.h"

gk::kit::MilliwattPerSquareCm least(gk::kit::MilliwattPerSquareCm value) {
  return value;
}

gk::kit::MilliwattPerSquareCm check() {
#ifdef GK_WRONG
  return least(gk::base::Seconds{20});
#else
  return least({1000});
#endif
}
