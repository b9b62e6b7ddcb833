// Nor may identities of two kinds be compared: the answer would always be no.
#include "base/identity/id.h"

bool check(gk::base::EntryId one, gk::base::EntryId two, gk::base::MemberId member) {
#ifdef GK_WRONG
  return one == member;
#else
  return one == two || member == member;
#endif
}
