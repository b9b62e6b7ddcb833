#pragma once

#include "reports/print/table.h"

#include <iosfwd>
#include <span>
#include <string_view>

namespace gk::office {

class JsonWriter;

/// How exact figures are: what leaves the program is as printed, lest more digits tell what is
/// suppressed.
enum class Digits { printed, all };

/// {"title", "version", "tables"}; `version` is empty on what was not issued.
void writeTablesJson(std::string_view title, const std::string& version,
                     std::span<const reports::Table> tables, Digits digits, std::ostream& out);

/// "tables": [{"key", "title", "columns": [{"key", "heading", "kind", "unit"}], "rows": [{...}],
/// "notes"}], the shape of every table: schema/tables.schema.json. A row has each cell under the
/// key of its column. Shares are 0 to 1; what is missing or not known is null; what is withheld is
/// text.
void tablesField(JsonWriter& json, std::span<const reports::Table> tables, Digits digits);

} // namespace gk::office
