#pragma once

#include "reports/table.h"

#include <span>
#include <string_view>

namespace gk::reports {

/// Columns aligned by character for a fixed-width face, UTF-8, a blank line after each table.
std::string toText(std::span<const Table> tables);

/// One page that needs nothing else: black on white, for the screen and for paper. Everything that
/// came from people is escaped.
std::string toHtml(std::string_view title, std::span<const Table> tables);

/// RFC 4180 with a header row; title and notes are not in it.
std::string toCsv(const Table& table);

/// `text` with & < > " ' written as HTML writes them.
std::string escaped(std::string_view text);

} // namespace gk::reports
