// Only days that exist are dates, so none is made without a check.
#include "base/time/date.h"

gk::base::Result<gk::base::Date> check() {
#ifdef GK_WRONG
  return gk::base::Date(std::chrono::year{2026} / 2 / 30);
#else
  return gk::base::Date::of(2026, 2, 30);
#endif
}
