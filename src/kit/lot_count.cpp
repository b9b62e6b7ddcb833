#include "kit/lot_count.h"

namespace gk::kit {

base::Result<base::Done> checkLotCount(const LotCount& count) {
  constexpr int most = 10000;
  if (count.opened < 0 || count.opened > most || count.left.value_or(0) < 0 ||
      count.left.value_or(0) > most)
    return base::Error{base::ErrorCode::numberMalformed,
                       "packages are counted from 0 to " + std::to_string(most)};
  return base::Done{};
}

} // namespace gk::kit
