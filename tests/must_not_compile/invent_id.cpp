// There is no empty identity.
#include "base/identity/id.h"

gk::base::EntryId check(gk::base::Uuid uuid) {
#ifdef GK_WRONG
  static_cast<void>(uuid);
  return {};
#else
  return gk::base::EntryId(uuid);
#endif
}
