#include "chairside/after_cure.h"

#include "base/text/text.h"

namespace gk::chairside {

base::Result<base::Done> checkAfterCure(const AfterCure& after) {
  if ((!after.wiped || after.bite == Bite::notChecked) && base::trim(after.note).empty())
    return base::Error{base::ErrorCode::ruleReason,
                       "say why the surface was not wiped or the bite not checked"};
  return base::Done{};
}

} // namespace gk::chairside
