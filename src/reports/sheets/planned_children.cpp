#include "reports/sheets/planned_children.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace gk::reports {

ChildrenAhead childrenAhead(const SchoolAhead& school, const PastCare& past) {
  if (school.back > 0 && school.back * formsTell >= school.students)
    return {.children = school.yes};
  const auto share = past.consentShare();
  if (!share) return {.children = school.yes, .isUnknown = school.back == 0};
  const auto willing = static_cast<int>(std::lround(school.students * *share));
  return {.children = std::max(willing - school.seen, school.yes), .consentShare = share};
}

int shareOfDay(int children, int days, int place) {
  const auto upTo = [&](int at) { return static_cast<int>(std::int64_t{children} * at / days); };
  return upTo(place + 1) - upTo(place);
}

} // namespace gk::reports
