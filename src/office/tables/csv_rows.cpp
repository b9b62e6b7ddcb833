#include "office/tables/csv_rows.h"

#include "base/text/csv.h"
#include "base/text/text.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

/// base::trim, with a short way for what has nothing to trim, as almost every cell.
std::string_view trimmed(std::string_view cell) {
  if (cell.empty() || (cell.front() > ' ' && cell.back() > ' ')) return cell;
  return base::trim(cell);
}

} // namespace

Result<CsvRows> CsvRows::of(std::string_view text) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  CsvRows rows(text);
  if (!base::isUtf8(text))
    return rows.malformed(1, "the file is not UTF-8 text; save it as CSV UTF-8");
  if (const auto control = base::controlIn(text))
    return rows.malformed(base::lineAt(text, *control),
                          "a control character; take it out of that line");
  const auto found = rows.readRow();
  if (!found) return found.error();
  if (!*found) {
    rows.cells_.clear();
    return rows.malformed(1, "the file is empty; a header row is needed");
  }
  if (rows.cells_.size() > base::mostColumns)
    return Error{ErrorCode::csvMalformed, "line 1: more columns than any table has"};
  for (const auto name : rows.cells_)
    rows.header_.emplace_back(name);
  if (const auto same = base::sameColumns(rows.header_))
    return Error{ErrorCode::csvMalformed, "line 1, column " + std::to_string(same->second) +
                                              ": the header has the name of column " +
                                              std::to_string(same->first) +
                                              " once more; leave one of the two"};
  return rows;
}

std::optional<std::size_t> CsvRows::columnIfAny(std::string_view name) const {
  const auto found = std::ranges::find(header_, name);
  if (found == header_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - header_.begin());
}

Result<std::size_t> CsvRows::column(std::string_view name) const {
  if (const auto found = columnIfAny(name)) return *found;
  // Not what there is instead: without a header row it would be a child's.
  return Error{ErrorCode::csvMalformed, "line 1: the header has no column \"" + std::string(name) +
                                            "\" among its " + std::to_string(header_.size())};
}

Result<bool> CsvRows::next() {
  auto found = readRow();
  if (!found) return found;
  if (!*found && !hasRows_)
    return Error{ErrorCode::csvMalformed, "line 2: there is no row under the header"};
  hasRows_ = true;
  if (*found && cells_.size() != header_.size())
    return Error{ErrorCode::csvMalformed,
                 "line " + std::to_string(rowLine_) + ", column " + std::to_string(cells_.size()) +
                     ": " + base::counted(std::ssize(cells_), "cell", "cells") +
                     " where the header has " + std::to_string(header_.size())};
  return found;
}

/// Blank lines are passed over.
Result<bool> CsvRows::readRow() {
  while (at_ < text_.size()) {
    cells_.clear();
    if (!unquoted_.empty()) unquoted_.clear();
    rowLine_ = line_;
    do {
      auto cell = take('"') ? quoted() : plain();
      if (!cell) return cell.error();
      cells_.push_back(trimmed(*cell));
    } while (take(','));
    take('\r');
    take('\n');
    ++line_;
    if (cells_.size() > 1 || !cells_.front().empty()) return true;
  }
  return false;
}

Result<std::string_view> CsvRows::plain() {
  const auto from = at_;
  auto to = from;
  const auto isWithin = [this](std::size_t place) {
    const char c = text_[place];
    return c != ',' && c != '\n' && c != '\r' && c != '"';
  };
  while (to < text_.size() && isWithin(to))
    ++to;
  at_ = to;
  if (to < text_.size() && text_[to] == '"')
    return malformed(line_, "a quote inside a cell that does not start with one");
  return text_.substr(from, to - from);
}

Result<std::string_view> CsvRows::quoted() {
  const auto begun = line_;
  const auto from = at_;
  while (at_ < text_.size()) {
    const char c = text_[at_++];
    if (c == '\n') ++line_;
    if (c != '"' || take('"')) continue;
    if (!atCellEnd()) return malformed(line_, "text after a closing quote");
    const auto raw = text_.substr(from, at_ - 1 - from);
    if (raw.find('"') == std::string_view::npos) return raw;
    auto& cell = unquoted_.emplace_back();
    for (std::size_t i = 0; i < raw.size(); ++i) {
      cell += raw[i];
      if (raw[i] == '"') ++i; // the second of two
    }
    return std::string_view(cell);
  }
  return malformed(begun, "a quoted cell is never closed");
}

bool CsvRows::take(char c) {
  if (at_ == text_.size() || text_[at_] != c) return false;
  ++at_;
  return true;
}

bool CsvRows::atCellEnd() const {
  return at_ == text_.size() || text_[at_] == ',' || text_[at_] == '\n' || text_[at_] == '\r';
}

Error CsvRows::malformed(std::size_t line, std::string_view what) const {
  return {ErrorCode::csvMalformed, "line " + std::to_string(line) + ", column " +
                                       std::to_string(cells_.size() + 1) + ": " +
                                       std::string(what)};
}

} // namespace gk::office
