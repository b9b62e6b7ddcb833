#pragma once

#include "base/result.h"

#include <cstddef>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gk::office {

/// The rows of a CSV table one at a time, by the rules of base::parseCsv, with no copy of what is
/// not quoted: a table of ten million rows costs its own text and nothing more. `text` outlives
/// it.
class CsvRows {
 public:
  /// Reads the header row. Fails with `csvMalformed`, as `next` does, naming line and column.
  static base::Result<CsvRows> of(std::string_view text);

  [[nodiscard]] std::optional<std::size_t> columnIfAny(std::string_view name) const;
  /// Fails with `csvMalformed`, which repeats no cell.
  [[nodiscard]] base::Result<std::size_t> column(std::string_view name) const;

  /// Steps to the next row; false after the last. A table without any row is `csvMalformed`.
  base::Result<bool> next();

  /// Of the row at hand: the line it began on, and its cells, trimmed.
  [[nodiscard]] std::size_t line() const { return rowLine_; }
  [[nodiscard]] std::string_view cell(std::size_t column) const { return cells_[column]; }

 private:
  explicit CsvRows(std::string_view text) : text_(text) {}
  base::Result<bool> readRow();
  base::Result<std::string_view> plain();
  base::Result<std::string_view> quoted();
  bool take(char c);
  [[nodiscard]] bool atCellEnd() const;
  [[nodiscard]] base::Error malformed(std::size_t line, std::string_view what) const;

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t rowLine_ = 0;
  std::vector<std::string> header_;
  std::vector<std::string_view> cells_;
  std::deque<std::string> unquoted_; ///< of the row at hand, where quotes stood within quotes
  bool hasRows_ = false;
};

} // namespace gk::office
