// A failure cannot be passed over by not looking at it.
#include "base/files/files.h"

bool check(const gk::base::Path& path) {
#ifdef GK_WRONG
  gk::base::replaceFile(path, "");
  return true;
#else
  return gk::base::replaceFile(path, "").has_value();
#endif
}
