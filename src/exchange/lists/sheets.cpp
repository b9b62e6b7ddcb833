#include "exchange/lists/sheets.h"

#include "base/text/text.h"
#include "base/time/date.h"
#include "exchange/lists/list_text.h"

#include <algorithm>

namespace gk::exchange {

namespace {

constexpr std::size_t mostSheets = 1000;
constexpr std::size_t mostCellBytes = 40000; ///< a spreadsheet's cell holds 32,767 characters

std::string attribute(const PartReader::Attributes& attributes, std::string_view name) {
  const auto at = attributes.find(name);
  return at == attributes.end() ? std::string() : at->second;
}

std::size_t numberIn(const PartReader::Attributes& attributes, std::string_view name,
                     std::size_t otherwise) {
  const auto number = base::parseInt(attribute(attributes, name));
  return number && *number >= 0 ? static_cast<std::size_t>(*number) : otherwise;
}

void append(std::string& text, std::string_view words) {
  if (text.size() < mostCellBytes) text += words;
}

/// "AB12": 27, or nothing where it names no column.
std::optional<std::size_t> columnOf(std::string_view place) {
  std::size_t column = 0;
  std::size_t letters = 0;
  while (letters < place.size() && place[letters] >= 'A' && place[letters] <= 'Z') {
    column = column * 26 + static_cast<std::size_t>(place[letters] - 'A') + 1;
    if (++letters > 3) return std::nullopt;
  }
  return letters == 0 ? std::nullopt : std::optional(column - 1);
}

/// The built-in formats of dates (ECMA-376 part 1, 18.8.30): 14 to 17 and 22, and those of the East
/// Asian locales.
bool isBuiltInDate(std::size_t format) {
  return (format >= 14 && format <= 17) || format == 22 || (format >= 27 && format <= 36) ||
         (format >= 50 && format <= 58);
}

/// "m/d/yyyy": a day or year outside of quotes and brackets. Hours alone are no date.
bool isDateCode(std::string_view code) {
  bool isQuoted = false;
  bool isBracket = false;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char c = code[i];
    if (c == '"') isQuoted = !isQuoted;
    if (c == '[') isBracket = true;
    if (c == ']') isBracket = false;
    if (c == '\\') ++i;
    const bool isPart = c == 'd' || c == 'D' || c == 'y' || c == 'Y';
    if (isPart && !isQuoted && !isBracket) return true;
  }
  return false;
}

/// Days since 1899-12-30, or since 1904-01-01, of 1990 to 2099; else the number stays as it is.
std::string dateOf(const std::string& number, bool is1904) {
  constexpr double from1904 = 1462;
  const auto value = base::parseDouble(number);
  if (!value) return number;
  const auto days = *value + (is1904 ? from1904 : 0);
  if (days < 32874 || days >= 73051) return number;
  return base::Date::of(1900, 1, 1)->plusDays(static_cast<int>(days) - 2).iso();
}

} // namespace

void Strings::begin(std::string_view name, const Attributes&) {
  if (name == "si") {
    if (all.size() >= base::mostCells) return stop("it has too many texts");
    all.emplace_back();
  }
  if (name == "rPh") isSound_ = true;
  if (name == "t") isText_ = !isSound_;
}

void Strings::end(std::string_view name) {
  if (name == "rPh") isSound_ = false;
  if (name == "t") isText_ = false;
}

void Strings::text(std::string_view words) {
  if (isText_ && !all.empty()) append(all.back(), words);
}

void Styles::begin(std::string_view name, const Attributes& attributes) {
  if (name == "numFmt")
    custom_[attribute(attributes, "numFmtId")] = isDateCode(attribute(attributes, "formatCode"));
  if (name == "cellXfs") isOfCells_ = true;
  if (name != "xf" || !isOfCells_ || areDates_.size() >= base::mostCells) return;
  const auto custom = custom_.find(attribute(attributes, "numFmtId"));
  areDates_.push_back(custom != custom_.end() ? custom->second
                                              : isBuiltInDate(numberIn(attributes, "numFmtId", 0)));
}

void Styles::end(std::string_view name) {
  if (name == "cellXfs") isOfCells_ = false;
}

void SheetRows::put(std::size_t row, std::size_t column, const std::string& text) {
  if (base::isBlank(text)) return;
  if (column >= base::mostColumns) return stop("it has more columns than any list");
  if (rows.empty() || rows.back().line != row) {
    if (rows.size() >= mostListRows) return stop("it has more rows than any list");
    rows.push_back({row, {}});
  }
  auto& cells = rows.back().cells;
  if (column >= cells.size()) {
    cells_ += column + 1 - cells.size();
    if (cells_ > base::mostCells) return stop("it has more cells than any list");
    cells.resize(column + 1);
  }
  auto clean = cleaned(text);
  if (clean.wasReadTwice) ++readTwice;
  cells[column] = std::move(clean.utf8);
}

void SheetRows::clear() {
  rows.clear();
  cells_ = 0;
  readTwice = 0;
}

void XlsxSheet::begin(std::string_view name, const Attributes& attributes) {
  if (name == "row") {
    row_ = std::max(numberIn(attributes, "r", row_ + 1), row_ + 1);
    column_ = 0;
  }
  if (name == "c") {
    column_ = columnOf(attribute(attributes, "r")).value_or(column_);
    type_ = attribute(attributes, "t");
    style_ = numberIn(attributes, "s", 0);
    words_.clear();
  }
  if (name == "v" || name == "t") isValue_ = true;
}

void XlsxSheet::end(std::string_view name) {
  if (name == "v" || name == "t") isValue_ = false;
  if (name != "c") return;
  put(row_, column_, valueOf());
  ++column_;
}

void XlsxSheet::text(std::string_view words) {
  if (isValue_) append(words_, words);
}

std::string XlsxSheet::valueOf() const {
  if (type_ == "s") {
    const auto place = base::parseInt(words_);
    const bool isThere = place && *place >= 0 && *place < std::ssize(strings_.all);
    return isThere ? strings_.all[static_cast<std::size_t>(*place)] : std::string();
  }
  if (type_ == "e") return {}; // "#REF!"
  if (type_ == "b") return words_ == "1" ? "yes" : "no";
  if (type_.empty() || type_ == "n")
    return styles_.isDate(style_) ? dateOf(words_, is1904_) : words_;
  return words_;
}

void OdsSheet::begin(std::string_view name, const Attributes& attributes) {
  if (name == "table" && ++depth_ == 1) {
    if (names.size() >= mostSheets) return stop("it has too many sheets");
    names.push_back(cleaned(attribute(attributes, "name")).utf8);
    row_ = 0;
    if (!isTaken_) clear();
  }
  if (depth_ != 1 || isTaken_) return;
  if (name == "table-row") {
    rowRepeats_ = std::max<std::size_t>(numberIn(attributes, "number-rows-repeated", 1), 1);
    ++row_;
    column_ = 0;
    cells_.clear();
  }
  if (name == "table-cell" || name == "covered-table-cell") {
    cellRepeats_ = std::max<std::size_t>(numberIn(attributes, "number-columns-repeated", 1), 1);
    const auto type = attribute(attributes, "value-type");
    // A date's value has no order to ask about, and a number's no separators.
    value_ = type == "date"    ? attribute(attributes, "date-value").substr(0, 10)
             : type == "float" ? attribute(attributes, "value")
                               : std::string();
    words_.clear();
    paragraphs_ = 0;
    isCell_ = true;
  }
  if (name == "annotation") isNote_ = true;
  if (name == "p" && isCell_ && !isNote_ && paragraphs_++ > 0) append(words_, "\n");
  if (name == "s" && isCell_ && !isNote_) append(words_, " ");
}

void OdsSheet::endTable() {
  if (isTaken_) return;
  if (!isList_ || isList_(rows)) {
    isTaken_ = true;
    taken = names.size() - 1;
  } else if (names.size() == 1) {
    first_ = rows;
    firstReadTwice_ = readTwice;
  }
}

void OdsSheet::settle() {
  if (isTaken_) return;
  rows = std::move(first_);
  readTwice = firstReadTwice_;
}

void OdsSheet::end(std::string_view name) {
  if (name == "table" && --depth_ == 0) return endTable();
  if (depth_ != 1 || isTaken_) return;
  if (name == "annotation") isNote_ = false;
  if (name == "table-cell" || name == "covered-table-cell") {
    isCell_ = false;
    auto said = value_.empty() ? words_ : value_;
    // Blank cells to the end of a sheet are said as one that repeats.
    if (!base::isBlank(said))
      for (std::size_t i = 0; i < std::min(cellRepeats_, base::mostColumns + 1); ++i)
        cells_.emplace_back(column_ + i, said);
    column_ += std::min(cellRepeats_, base::mostCells);
  }
  if (name == "table-row") {
    for (std::size_t i = 0; i < rowRepeats_ && !cells_.empty() && trouble().empty(); ++i)
      for (const auto& [column, said] : cells_)
        put(row_ + i, column, said);
    row_ += std::min(rowRepeats_, base::mostCells) - 1;
  }
}

void OdsSheet::text(std::string_view words) {
  if (isCell_ && !isNote_ && !isTaken_) append(words_, words);
}

} // namespace gk::exchange
