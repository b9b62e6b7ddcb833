#pragma once

#include "reports/print/table.h"

#include <span>
#include <string_view>
#include <utility>

namespace gk::reports {

/// `version` of an issued report is printed above its tables; of a CSV it is the last row. `mark`
/// is what every page says of who may read it.

/// Of a page whose small numbers are not suppressed, and of one with names.
inline constexpr std::string_view internalMark = "Internal: contains small numbers";
inline constexpr std::string_view namesMark = "Internal: names students";

/// Columns aligned by character for a fixed-width face, UTF-8, a blank line after each table.
std::string toText(std::span<const Table> tables, std::string_view version = {},
                   std::string_view mark = {});

/// One page that needs nothing else, for the screen and for paper, in the look of what is printed.
/// Everything that came from people is escaped.
std::string toHtml(std::string_view title, std::span<const Table> tables,
                   std::string_view version = {}, std::string_view mark = {});

/// RFC 4180 with a header row, UTF-8 without a byte order mark; title and notes are not in it. A
/// cell that a spreadsheet could run is made harmless (base::csvLine).
std::string toCsv(const Table& table, std::string_view version = {});

/// One file for each table, named after its title up to a colon or a comma: "still-to-see.csv".
/// Tables whose names would be the same are told apart by a number.
std::vector<std::pair<std::string, std::string>> toCsvFiles(std::span<const Table> tables);

/// `text` with & < > " ' written as HTML writes them.
std::string escaped(std::string_view text);

} // namespace gk::reports
