#pragma once

#include "reports/print/table.h"

#include <iosfwd>
#include <span>
#include <string_view>

namespace gk::office {

/// {"title", "version", "tables": [{"title", "columns": [{"heading", "number"}], "rows": [[...]],
/// "notes"}]}. A cell that is a plain number in a column of numbers is a JSON number, as printed; a
/// figure with its range, or none, is text. `version` is empty on what was not issued. Full
/// precision is what `totals --json` and the estimate verbs give.
void writeTablesJson(std::string_view title, const std::string& version,
                     std::span<const reports::Table> tables, std::ostream& out);

} // namespace gk::office
