#pragma once

#include "exchange/lists/package.h"

#include <vector>

namespace gk::exchange {

/// The texts that the cells of an .xlsx share, in order.
class Strings final : public PartReader {
 public:
  void begin(std::string_view name, const Attributes& attributes) override;
  void end(std::string_view name) override;
  void text(std::string_view words) override;

  std::vector<std::string> all{};

 private:
  bool isText_ = false;
  bool isSound_ = false; ///< how a name is pronounced, beside it
};

/// Which formats of cells are dates.
class Styles final : public PartReader {
 public:
  void begin(std::string_view name, const Attributes& attributes) override;
  void end(std::string_view name) override;
  void text(std::string_view) override {}

  [[nodiscard]] bool isDate(std::size_t style) const {
    return style < areDates_.size() && areDates_[style];
  }

 private:
  std::map<std::string, bool> custom_{};
  std::vector<bool> areDates_{};
  bool isOfCells_ = false;
};

/// Rows that cells are put into by their place, within the limits of a list.
class SheetRows : public PartReader {
 public:
  std::vector<base::CsvRow> rows{};
  std::size_t readTwice = 0; ///< cells that were UTF-8 read as other text

 protected:
  void put(std::size_t row, std::size_t column, const std::string& text);
  /// Another sheet begins.
  void clear();

 private:
  std::size_t cells_ = 0;
};

class XlsxSheet final : public SheetRows {
 public:
  /// Both outlive it.
  XlsxSheet(const Strings& strings, const Styles& styles, bool is1904)
      : strings_(strings), styles_(styles), is1904_(is1904) {}

  void begin(std::string_view name, const Attributes& attributes) override;
  void end(std::string_view name) override;
  void text(std::string_view words) override;

 private:
  [[nodiscard]] std::string valueOf() const;

  const Strings& strings_;
  const Styles& styles_;
  bool is1904_;
  std::size_t row_ = 0;    ///< from 1
  std::size_t column_ = 0; ///< from 0, of the next cell
  std::string type_{};
  std::size_t style_ = 0;
  std::string words_{};
  bool isValue_ = false;
};

/// All sheets are in one part: `rows` are those of the first that is a list, or else of the first.
class OdsSheet final : public SheetRows {
 public:
  /// Outlives it.
  explicit OdsSheet(const IsList& isList) : isList_(isList) {}

  std::vector<std::string> names{};
  std::size_t taken = 0; ///< of the names

  /// Where no sheet is a list, the rows are those of the first.
  void settle();

  void begin(std::string_view name, const Attributes& attributes) override;
  void end(std::string_view name) override;
  void text(std::string_view words) override;

 private:
  void endTable();

  const IsList& isList_;
  int depth_ = 0; ///< of tables
  bool isTaken_ = false;
  std::vector<base::CsvRow> first_{}; ///< of the first sheet, while another is looked at
  std::size_t firstReadTwice_ = 0;
  std::size_t row_ = 0;
  std::size_t rowRepeats_ = 1;
  std::size_t column_ = 0;
  std::size_t cellRepeats_ = 1;
  std::vector<std::pair<std::size_t, std::string>> cells_{}; ///< of the row that is open
  std::string value_{};
  std::string words_{};
  bool isCell_ = false;
  bool isNote_ = false;
  int paragraphs_ = 0;
};

} // namespace gk::exchange
