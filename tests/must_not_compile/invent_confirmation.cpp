// Only the session says that a right PIN was given.
#include "session/rights/confirmation.h"

gk::session::OwnPin check(gk::base::MemberId who) {
#ifdef GK_WRONG
  return gk::session::Confirmation(who, 1);
#else
  static_cast<void>(who);
  return {};
#endif
}
