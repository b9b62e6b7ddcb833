#include "exchange/lists/list_rows.h"

#include "base/text/text.h"
#include "exchange/lists/list_text.h"
#include "exchange/lists/workbook.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace gk::exchange {

using base::CsvRow;
using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr std::size_t looked = std::size_t{64} * 1024; ///< bytes that say what the separator is

struct Separator {
  char sign;
  std::string_view words;
};
/// Of two that part the rows alike, the first: a comma stands within names.
constexpr std::array separators{Separator{'\t', "tabs"}, Separator{';', "semicolons"},
                                Separator{'|', "upright bars"}, Separator{',', "commas"}};

/// How alike a separator parts the rows, times how many cells it makes of them.
double alikeness(std::string_view text, char separator) {
  const auto rows = base::parseLooseRows(text, separator);
  if (!rows) return 0;
  std::map<std::size_t, std::size_t> widths;
  for (const auto& row : *rows)
    ++widths[row.cells.size()];
  std::size_t usual = 1;
  std::size_t often = 0;
  for (const auto& [width, count] : widths)
    if (width > 1 && count >= often) {
      usual = width;
      often = count;
    }
  if (often == 0) return 0;
  return static_cast<double>(often) / static_cast<double>(rows->size()) *
         static_cast<double>(usual - 1);
}

/// The first lines, whole ones.
std::string_view beginning(std::string_view text) {
  if (text.size() <= looked) return text;
  const auto end = text.find_last_of("\r\n", looked);
  return text.substr(0, end == std::string_view::npos ? looked : end);
}

/// A first line of a spreadsheet's own that names the separator: "sep=;".
std::optional<char> saidSeparator(std::string_view& text) {
  const auto line = text.substr(0, text.find_first_of("\r\n"));
  if (line.size() != 5 || base::folded(line.substr(0, 4)) != "sep=") return std::nullopt;
  const auto at = std::ranges::find(separators, line[4], &Separator::sign);
  if (at == separators.end()) return std::nullopt;
  // The line stays, blank, so that lines are counted as in the file.
  text.remove_prefix(line.size());
  return at->sign;
}

Separator separatorOf(std::string_view& text) {
  if (const auto said = saidSeparator(text))
    return *std::ranges::find(separators, *said, &Separator::sign);
  const auto head = beginning(text);
  auto best = separators.back();
  double most = 0;
  for (const auto& one : separators)
    if (const auto alike = alikeness(head, one.sign); alike > most) {
      best = one;
      most = alike;
    }
  return best;
}

/// A text as a formula: ="00123".
std::string_view unwrapped(std::string_view cell) {
  if (cell.size() < 3 || !cell.starts_with("=\"") || !cell.ends_with('"')) return cell;
  const auto text = cell.substr(2, cell.size() - 3);
  return text.find('"') == std::string_view::npos ? base::trim(text) : cell;
}

void dropBlankColumns(std::vector<CsvRow>& rows) {
  std::size_t width = 0;
  for (const auto& row : rows)
    width = std::max(width, row.cells.size());
  std::vector<bool> isUsed(width, false);
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      if (!row.cells[i].empty()) isUsed[i] = true;
  for (auto& row : rows) {
    std::size_t to = 0;
    for (std::size_t from = 0; from < row.cells.size(); ++from)
      if (isUsed[from]) {
        if (to != from) row.cells[to] = std::move(row.cells[from]);
        ++to;
      }
    row.cells.resize(to);
  }
}

Result<ListRows> readText(std::string_view bytes) {
  auto decoded = decodeList(bytes);
  if (!decoded) return decoded.error();
  std::string_view text = decoded->utf8;
  const auto separator = separatorOf(text);
  auto rows = base::parseLooseRows(text, separator.sign);
  if (!rows) return rows.error();
  ListRows list{std::move(*rows), std::move(decoded->notes)};
  if (separator.sign != ',')
    list.notes.push_back("Cells are separated by " + std::string(separator.words) + ".");
  return list;
}

} // namespace

Result<ListRows> readList(std::string_view bytes, const IsList& isList) {
  auto list = isPacked(bytes) ? readWorkbook(bytes, isList) : readText(bytes);
  if (!list) return list.error();
  if (list->rows.empty())
    return Error{ErrorCode::csvMalformed, "the file is empty; look whether it is the right one"};
  if (list->rows.size() > mostListRows)
    return Error{ErrorCode::csvMalformed,
                 "more than " + base::counted(mostListRows, "row", "rows") +
                     ", where a list is of one school; look whether it is the right file"};
  for (auto& row : list->rows)
    for (auto& cell : row.cells)
      cell = std::string(unwrapped(base::trim(cell)));
  dropBlankColumns(list->rows);
  return list;
}

} // namespace gk::exchange
