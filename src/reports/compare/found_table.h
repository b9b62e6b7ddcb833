#pragma once

#include "reports/print/table.h"
#include "reports/retention/retention_facts.h"

namespace gk::reports {

/// The children due who were found beside those who were not, by what was known of them when they
/// were sealed: where the two differ, those found do not stand for all.
Table foundTable(const TermView& view, const RetentionFacts& facts, const Choice& choice = {});

} // namespace gk::reports
