// A result is not its value until someone has looked.
#include "base/text/text.h"

std::int64_t check(std::string_view text) {
#ifdef GK_WRONG
  return gk::base::parseInt(text);
#else
  return gk::base::parseInt(text).value_or(0);
#endif
}
