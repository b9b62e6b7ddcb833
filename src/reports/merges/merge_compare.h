#pragma once

#include "followup/visit_findings.h"
#include "reports/merges/merge_table.h"
#include "reports/records/day_view.h"

namespace gk::reports {

/// "sound; seal O", "partially erupted; not today".
std::string findingWords(const chairside::ToothFinding& finding);

/// Fills in the question's lines and what each side would lose.
void compareSides(const DayView& view, MergeQuestion& question);

} // namespace gk::reports
