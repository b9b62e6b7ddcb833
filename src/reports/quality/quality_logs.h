#pragma once

#include "reports/print/table.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// What made teeth wet, at which stage, and what became of them, for each hundred teeth begun.
Table wetTable(const TermView& view);

/// What did not go as it is meant to, by kind, with how often at which school.
Table exceptionsTable(const TermView& view);

/// The spore tests that mornings told of, and the days from each to the next morning that asked.
Table sterilizerTable(const TermView& view);

/// Whose license ends when, soonest first.
Table licenseTable(const TermRecords& records);

} // namespace gk::reports
