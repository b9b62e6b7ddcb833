#pragma once

#include "reports/compare/standing_out.h"

namespace gk::reports {

/// One tooth that fails makes its jaw fail and every other tooth look good; a jaw that fails makes
/// each of its teeth fail. Takes out of `found` each tooth and jaw of whose difference less than
/// half is left, or the opposite, without the teeth that were told of before it: within schools
/// where it was found within them. Says what is left of each that it took out.
std::vector<std::string> takeOutEchoes(std::vector<StandingOut>& found,
                                       std::span<const FactorComparison> compared);

} // namespace gk::reports
