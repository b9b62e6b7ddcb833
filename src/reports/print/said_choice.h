#pragma once

#include "reports/print/table.h"

namespace gk::reports {

/// What is chosen stands on every table of a report that obeys it, so that none is read as of all.
/// `words` are the choice as a person reads it.
void sayChoice(std::vector<Table>& tables, const std::string& words);

} // namespace gk::reports
