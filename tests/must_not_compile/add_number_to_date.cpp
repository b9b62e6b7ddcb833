// Days or months: a bare number does not say.
#include "base/time/date.h"

gk::base::Date check(gk::base::Date date) {
#ifdef GK_WRONG
  return date + 30;
#else
  return date.plusDays(30);
#endif
}
