// The identity of one kind of thing is no identity of another.
#include "base/identity/id.h"

gk::base::LaptopId laptopOf(gk::base::LaptopId laptop) {
  return laptop;
}

gk::base::LaptopId check(gk::base::LaptopId laptop, gk::base::MemberId member) {
#ifdef GK_WRONG
  return laptopOf(member);
#else
  return member.text().empty() ? laptop : laptopOf(laptop);
#endif
}
