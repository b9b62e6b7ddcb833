#pragma once

#include "reports/print/table.h"

#include <string>
#include <variant>
#include <vector>

namespace gk::reports {

/// How cells look, each format once; what a workbook calls its styles.
class SheetStyles {
 public:
  /// The first three, which every workbook has.
  enum Fixed : std::size_t { words, heading, title };

  /// The style of numbers shown so, such as "0.0%".
  std::size_t of(const std::string& format);
  [[nodiscard]] std::string xml() const;

 private:
  std::vector<std::string> formats_;
};

/// One cell as a spreadsheet keeps it.
struct SheetCell {
  std::variant<std::string, double> value;
  std::size_t style = SheetStyles::words;
};

/// The rows of one sheet.
class SheetRows {
 public:
  explicit SheetRows(SheetStyles& styles) : styles_(styles) {}

  void add(const std::vector<SheetCell>& row);
  /// A headline number, and what it counts.
  void addFigure(const FrontFigure& figure);
  /// Headings and rows; a column of estimates becomes several.
  void addTable(const Table& table);

  [[nodiscard]] std::string rowsXml() const { return rows_; }
  /// As wide as what stands in each, within reason.
  [[nodiscard]] std::string columnsXml() const;

 private:
  SheetStyles& styles_;
  std::string rows_;
  std::size_t count_ = 0;
  std::vector<std::size_t> widths_;
  bool measures_ = false; ///< sentences do not make a column wide
};

} // namespace gk::reports
