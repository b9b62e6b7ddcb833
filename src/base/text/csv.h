#pragma once

#include "base/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gk::base {

/// One record of a CSV file and the line it began on (the first is 1).
struct CsvRow {
  std::size_t line;
  std::vector<std::string> cells;
};

struct CsvTable {
  std::vector<std::string> header;
  std::vector<CsvRow> rows;

  /// Index of a column; fails with `csvMalformed`, which repeats no cell.
  [[nodiscard]] Result<std::size_t> column(std::string_view name) const;
};

/// The places, from 1, of two columns of one name as it is read (blank ones have none): which of
/// them would be read is no choice to make for anybody.
std::optional<std::pair<std::size_t, std::size_t>>
sameColumns(const std::vector<std::string>& header);

/// No list needs more; a table of a million columns is none.
constexpr std::size_t mostColumns = 1000;

/// The line, from 1, on which the byte at that place stands.
std::size_t lineAt(std::string_view text, std::size_t place);

/// RFC 4180 with a header row, UTF-8 with or without a byte order mark, either line ending, blank
/// lines passed over. Two columns of one name, more than `mostColumns`, a row of another width, a
/// stray quote, a control character or bad UTF-8 is `csvMalformed` with line and column. No message
/// repeats anything of the text.
Result<CsvTable> parseCsv(std::string_view text);

/// How the rows of a file are read of which no one knows who wrote it. Cells as parseCsv has them,
/// between these separators; blank lines are passed over. Where RFC 4180 ends, what most
/// spreadsheets do: a quote within a cell, or one that no other closes within `mostQuotedLines`
/// lines, is a letter; text behind a closing quote belongs to the cell. Any bytes are rows;
/// `csvMalformed` is only for more than `mostCells` of them, or `mostColumns` in a row.
/// Precondition: the separator is neither a quote nor the end of a line.
Result<std::vector<CsvRow>> parseLooseRows(std::string_view text, char separator);
constexpr std::size_t mostQuotedLines = 20;
constexpr std::size_t mostCells = 1'000'000; ///< of the longest list 50 columns

/// One RFC 4180 line ending in CRLF. A cell that a spreadsheet could run (it, or what follows a
/// semicolon or a line end in it, starts with = + - @, tab or return, and is no number) is led by
/// an apostrophe, and what holds a semicolon is quoted: where the comma is the decimal sign the
/// semicolon parts cells.
std::string csvLine(const std::vector<std::string>& cells);

} // namespace gk::base
