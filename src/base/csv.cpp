#include "base/csv.h"

#include "base/text.h"

#include <algorithm>

namespace gk::base {

namespace {

Error malformed(std::size_t line, std::size_t column, std::string_view what) {
  return {ErrorCode::csvMalformed, "line " + std::to_string(line) + ", column " +
                                       std::to_string(column) + ": " + std::string(what)};
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  Result<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> out;
    while (at_ < text_.size()) {
      CsvRow row{line_, {}};
      do {
        auto cell = next(row.cells.size() + 1);
        if (!cell) return cell.error();
        row.cells.push_back(std::move(*cell));
      } while (take(','));
      endLine();
      if (row.cells.size() > 1 || !row.cells.front().empty()) out.push_back(std::move(row));
    }
    return out;
  }

 private:
  Result<std::string> next(std::size_t column) {
    return take('"') ? quoted(column) : plain(column);
  }

  Result<std::string> plain(std::size_t column) {
    const auto from = at_;
    while (at_ < text_.size() && text_[at_] != ',' && text_[at_] != '\n' && text_[at_] != '\r') {
      if (text_[at_] == '"')
        return malformed(line_, column, "a quote inside a cell that does not start with one");
      ++at_;
    }
    return std::string(text_.substr(from, at_ - from));
  }

  Result<std::string> quoted(std::size_t column) {
    const auto begun = line_;
    std::string cell;
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == '\n') ++line_;
      if (c != '"') {
        cell += c;
      } else if (take('"')) {
        cell += '"';
      } else {
        const bool ends =
            at_ == text_.size() || text_[at_] == ',' || text_[at_] == '\n' || text_[at_] == '\r';
        if (!ends) return malformed(line_, column, "text after a closing quote");
        return cell;
      }
    }
    return malformed(begun, column, "a quoted cell is never closed");
  }

  bool take(char c) {
    if (at_ == text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  void endLine() {
    take('\r');
    take('\n');
    ++line_;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

bool wouldRun(std::string_view cell) {
  if (cell.empty()) return false;
  const bool risky = std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos;
  return risky && !parseDouble(cell);
}

} // namespace

Result<std::size_t> CsvTable::column(std::string_view name) const {
  const auto found = std::ranges::find(header, name);
  if (found != header.end()) return static_cast<std::size_t>(found - header.begin());
  // Not what there is instead: without a header row it would be a child's.
  return malformed(1, 1,
                   "the header has no column \"" + std::string(name) + "\" among its " +
                       std::to_string(header.size()));
}

std::optional<std::pair<std::size_t, std::size_t>>
sameColumns(const std::vector<std::string>& header) {
  for (std::size_t i = 0; i < header.size(); ++i)
    for (std::size_t j = i + 1; j < header.size(); ++j)
      if (!header[i].empty() && header[i] == header[j]) return std::pair(i + 1, j + 1);
  return std::nullopt;
}

Result<CsvTable> parseCsv(std::string_view text) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  if (!isUtf8(text)) return malformed(1, 1, "the file is not UTF-8 text; save it as CSV UTF-8");
  auto rows = Reader(text).rows();
  if (!rows) return rows.error();
  if (rows->empty()) return malformed(1, 1, "the file is empty; a header row is needed");
  CsvTable table;
  for (const auto& name : rows->front().cells)
    table.header.emplace_back(trim(name));
  if (const auto same = sameColumns(table.header))
    return malformed(1, same->second,
                     "the header has the name of column " + std::to_string(same->first) +
                         " once more; leave one of the two");
  rows->erase(rows->begin());
  table.rows = std::move(*rows);
  for (const auto& row : table.rows)
    if (row.cells.size() != table.header.size())
      return malformed(row.line, row.cells.size(),
                       counted(std::ssize(row.cells), "cell", "cells") + " where the header has " +
                           std::to_string(table.header.size()));
  return table;
}

std::string csvLine(const std::vector<std::string>& cells) {
  std::string line;
  bool first = true;
  for (const auto& cell : cells) {
    if (!first) line += ',';
    first = false;
    const std::string safe = wouldRun(cell) ? "'" + cell : cell;
    if (safe.find_first_of(",\"\r\n") == std::string::npos) {
      line += safe;
      continue;
    }
    line += '"';
    for (char c : safe) {
      if (c == '"') line += '"';
      line += c;
    }
    line += '"';
  }
  return line + "\r\n";
}

} // namespace gk::base
