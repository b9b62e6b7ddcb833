#pragma once

#include "reports/print/table.h"
#include "reports/records/inputs.h"

namespace gk::reports {

/// What made teeth wet, at which stage, and what became of them, for each hundred teeth begun.
Table wetTable(const TermRecords& records);

/// What did not go as it is meant to, by kind, with how often at which school.
Table exceptionsTable(const TermRecords& records);

/// The spore tests that mornings told of, and the days from each to the next morning that asked.
Table sterilizerTable(const TermRecords& records);

/// Whose licence ends when, soonest first.
Table licenceTable(const TermRecords& records);

} // namespace gk::reports
