#pragma once

#include "reports/records/inputs.h"

namespace gk::reports {

/// The newest check of each placement where that check calls the record doubtful, and no one has
/// corrected the placement since. `placements` need not have them all.
Rows<followup::RetentionCheck> stillDoubtful(const Rows<followup::RetentionCheck>& checks,
                                             const Rows<chairside::Placement>& placements);

} // namespace gk::reports
