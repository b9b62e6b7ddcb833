#include "chairside/placement.h"

#include <algorithm>

namespace gk::chairside {

bool countsAsSealant(const Placement& placement) {
  return placement.attempt == Attempt::complete && placement.type != PlacementType::repair &&
         placement.type != PlacementType::interim;
}

base::Result<base::Done> checkVarnishOrder(const Screening& screening,
                                           std::span<const Placement> ofTheDay) {
  for (const auto& finding : screening.teeth) {
    const bool handled = std::ranges::any_of(
        ofTheDay, [&](const Placement& placement) { return placement.tooth == finding.tooth; });
    if (isTreatment(finding.decision) && !handled)
      return base::Error{
          base::ErrorCode::ruleVarnish,
          finding.tooth.words() +
              " is not sealed yet, and varnish comes after sealants; seal it, stop it or "
              "change the decision"};
  }
  return base::Done{};
}

} // namespace gk::chairside
