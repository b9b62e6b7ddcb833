#pragma once

#include "reports/table.h"

#include <iosfwd>
#include <span>
#include <string_view>

namespace gk::office {

/// {"title", "tables": [{"title", "columns": [{"heading", "number"}], "rows": [[...]], "notes"}]}.
/// A cell that is a plain number in a column of numbers is a JSON number, as printed; a figure with
/// its range, or none, is text. Full precision is what `totals --json` and the estimate verbs give.
void writeTablesJson(std::string_view title, std::span<const reports::Table> tables,
                     std::ostream& out);

} // namespace gk::office
