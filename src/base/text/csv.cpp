#include "base/text/csv.h"

#include "base/text/text.h"

#include <algorithm>
#include <map>

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

bool begins(std::string_view cell) {
  if (cell.empty()) return false;
  const bool risky = std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos;
  return risky && !parseDouble(cell);
}

/// As Reader, of what has no wrong row.
class LooseReader {
 public:
  LooseReader(std::string_view text, char separator) : text_(text), separator_(separator) {}

  Result<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> out;
    std::size_t cells = 0;
    while (at_ < text_.size()) {
      CsvRow row{line_, {}};
      do {
        row.cells.push_back(next());
        if (++cells > mostCells) return malformed(line_, 1, "more cells than any list has");
        if (row.cells.size() > mostColumns)
          return malformed(line_, mostColumns + 1, "more columns than any list has");
      } while (passSeparator());
      endLine();
      if (std::ranges::any_of(row.cells, [](const auto& cell) { return !isBlank(cell); }))
        out.push_back(std::move(row));
    }
    return out;
  }

 private:
  bool passSeparator() {
    if (at_ == text_.size() || text_[at_] != separator_) return false;
    ++at_;
    return true;
  }

  std::string next() {
    if (at_ < text_.size() && text_[at_] == '"')
      if (auto cell = quoted()) return std::move(*cell);
    return plain();
  }

  [[nodiscard]] bool isEnd(std::size_t place) const {
    return place == text_.size() || text_[place] == separator_ || text_[place] == '\n' ||
           text_[place] == '\r';
  }

  std::string plain() {
    const auto from = at_;
    while (!isEnd(at_))
      ++at_;
    return std::string(text_.substr(from, at_ - from));
  }

  std::optional<std::string> quoted() {
    std::string cell;
    std::size_t lines = 0;
    for (std::size_t place = at_ + 1; place < text_.size(); ++place) {
      const char c = text_[place];
      const bool isPair = c == '"' && place + 1 < text_.size() && text_[place + 1] == '"';
      if (c == '"' && !isPair) {
        at_ = place + 1;
        line_ += lines;
        return cell + plain();
      }
      if (isPair) ++place;
      const bool isLine =
          c == '\n' || (c == '\r' && (place + 1 == text_.size() || text_[place + 1] != '\n'));
      if (isLine && ++lines > mostQuotedLines) return std::nullopt;
      cell += c;
    }
    return std::nullopt;
  }

  void endLine() {
    if (at_ < text_.size() && text_[at_] == '\r') ++at_;
    if (at_ < text_.size() && text_[at_] == '\n') ++at_;
    ++line_;
  }

  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

/// Blanks do not hinder a spreadsheet.
bool wouldRun(std::string_view cell) {
  for (;;) {
    const auto blank = cell.find_first_not_of(' ');
    if (blank != std::string_view::npos && begins(cell.substr(blank))) return true;
    const auto next = cell.find_first_of(";\n\r");
    if (next == std::string_view::npos) return false;
    cell.remove_prefix(next + 1);
  }
}

/// An apostrophe before each part that would run.
std::string made(std::string_view cell) {
  if (!wouldRun(cell)) return std::string(cell);
  std::string safe;
  std::size_t from = 0;
  while (from <= cell.size()) {
    const auto to = std::min(cell.find_first_of(";\n\r", from), cell.size());
    const auto part = cell.substr(from, to - from);
    const auto blank = part.find_first_not_of(' ');
    const bool runs = blank != std::string_view::npos && begins(part.substr(blank));
    if (runs) safe += '\'';
    safe += part;
    if (to < cell.size()) safe += cell[to];
    from = to + 1;
  }
  return safe;
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
  // As a person reads them: "Child" and "child " are one name.
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < header.size(); ++i) {
    const auto name = folded(trim(header[i]));
    if (name.empty()) continue;
    if (const auto [at, isNew] = places.emplace(name, i + 1); !isNew)
      return std::pair(at->second, i + 1);
  }
  return std::nullopt;
}

std::size_t lineAt(std::string_view text, std::size_t place) {
  return 1 + static_cast<std::size_t>(std::ranges::count(text.substr(0, place), '\n'));
}

Result<std::vector<CsvRow>> parseLooseRows(std::string_view text, char separator) {
  return LooseReader(text, separator).rows();
}

Result<CsvTable> parseCsv(std::string_view text) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  if (!isUtf8(text)) return malformed(1, 1, "the file is not UTF-8 text; save it as CSV UTF-8");
  if (const auto control = controlIn(text))
    return malformed(lineAt(text, *control), 1, "a control character; remove it from that line");
  auto rows = Reader(text).rows();
  if (!rows) return rows.error();
  if (rows->empty()) return malformed(1, 1, "the file is empty; a header row is needed");
  if (rows->front().cells.size() > mostColumns)
    return malformed(1, mostColumns + 1, "more columns than any list has");
  CsvTable table;
  for (const auto& name : rows->front().cells)
    table.header.emplace_back(trim(name));
  if (const auto same = sameColumns(table.header))
    return malformed(1, same->second,
                     "the header has the name of column " + std::to_string(same->first) +
                         " again; keep one of the two");
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
    const auto safe = made(cell);
    if (safe.find_first_of(",;\"\r\n\t") == std::string::npos) {
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
