#include "reports/workbook/sheet_cells.h"

#include "base/text/text.h"
#include "reports/print/render.h"

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

/// What of a cell stands in a column of its own.
enum class Piece { value, of, low, high, remark };

const char* behindHeading(Piece piece) {
  switch (piece) {
  case Piece::value:
    break;
  case Piece::of:
    return ", of";
  case Piece::low:
    return ", low";
  case Piece::high:
    return ", high";
  case Piece::remark:
    return ", remark";
  }
  return "";
}

std::string decimalsOf(int decimals) {
  return decimals > 0 ? "0." + std::string(static_cast<std::size_t>(decimals), '0') : "0";
}

std::string withoutControls(const std::string& text) {
  std::string out;
  for (const char letter : text)
    if (static_cast<unsigned char>(letter) >= 0x20 || letter == '\t' || letter == '\n')
      out += letter;
  return out;
}

/// The pieces of one cell, by the styles of the book.
class Pieces {
 public:
  Pieces(SheetStyles& styles, const Cell& cell) : styles_(styles), cell_(cell) {}

  [[nodiscard]] SheetCell value() const { return std::visit(*this, cell_.value()); }

  [[nodiscard]] std::optional<SheetCell> of(Piece piece) const {
    if (piece == Piece::value) return value();
    if (const auto* pair = cell_.as<OutOf>(); pair && piece == Piece::of)
      return number(pair->whole, "0");
    if (const auto* range = rangeIn(); range && (piece == Piece::low || piece == Piece::high))
      return end(*range, piece == Piece::low ? range->low : range->high);
    if (piece == Piece::remark)
      if (auto words = remark(); !words.empty()) return SheetCell{std::move(words)};
    return std::nullopt;
  }

  SheetCell operator()(const std::string& text) const { return {text}; }
  SheetCell operator()(Missing /*none*/) const { return {std::string()}; }
  SheetCell operator()(Unknown /*none*/) const { return {Cell(Unknown{}).text()}; }
  SheetCell operator()(Withheld hidden) const { return {Cell(hidden).text()}; }
  SheetCell operator()(Count count) const {
    return number(static_cast<double>(count.value), "#,##0");
  }
  SheetCell operator()(OutOf pair) const { return number(pair.part, "0"); }
  SheetCell operator()(Share share) const {
    return number(share.printed(), decimalsOf(share.decimals) + "%");
  }
  SheetCell operator()(Number one) const {
    if (!std::isfinite(one.value)) return {Cell(one).text()};
    return number(one.printed(), decimalsOf(one.decimals));
  }
  SheetCell operator()(const Range& /*ends*/) const { return {std::string()}; }
  SheetCell operator()(const Estimate& estimate) const { return std::visit(*this, estimate.value); }
  SheetCell operator()(YesNo answer) const { return {std::string(answer.isYes ? "yes" : "no")}; }
  SheetCell operator()(const Word& word) const { return {word.shown}; }
  SheetCell operator()(const Named& named) const { return {named.shown}; }
  SheetCell operator()(base::Date date) const {
    const auto first =
        *base::Date::of(1900, 1, 1); // is 2: a day is missing before and one too many
    return number(base::daysBetween(first, date) + 2, "mmm d, yyyy");
  }

 private:
  [[nodiscard]] SheetCell number(double value, const std::string& format) const {
    return {value, styles_.of(format)};
  }
  [[nodiscard]] SheetCell end(const Range& range, double value) const {
    return range.decimals ? (*this)(Number{value, *range.decimals}) : (*this)(Share{value});
  }
  [[nodiscard]] const Range* rangeIn() const {
    if (const auto* range = cell_.as<Range>()) return range;
    const auto* estimate = cell_.as<Estimate>();
    return estimate && estimate->range ? &*estimate->range : nullptr;
  }
  [[nodiscard]] std::string remark() const {
    auto words = cell_.remark();
    if (const auto* range = rangeIn()) words += range->remark;
    const auto* share = cell_.as<Share>();
    if (share && share->isUnstable) words += ", unstable";
    const auto from = words.find_first_not_of(", ");
    return from == std::string::npos ? std::string() : words.substr(from);
  }

  SheetStyles& styles_;
  const Cell& cell_;
};

/// "1234", "0.872": without zeros that say nothing.
std::string plainly(double value) {
  auto text = base::fixed(value, 12);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string columnLetters(std::size_t at) {
  std::string out;
  for (++at; at > 0; at = (at - 1) / 26)
    out.insert(out.begin(), static_cast<char>('A' + (at - 1) % 26));
  return out;
}

std::size_t lettersIn(const std::string& text) {
  return static_cast<std::size_t>(std::ranges::count_if(
      text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

} // namespace

std::size_t SheetStyles::of(const std::string& format) {
  auto at = std::ranges::find(formats_, format);
  if (at == formats_.end()) at = formats_.insert(formats_.end(), format);
  return static_cast<std::size_t>(at - formats_.begin()) + 3;
}

std::string SheetStyles::xml() const {
  constexpr std::size_t ownFormats = 164; // smaller ones are the standard's
  std::string formats;
  std::string styles;
  for (std::size_t i = 0; i < formats_.size(); ++i) {
    const auto id = std::to_string(ownFormats + i);
    formats += "<numFmt numFmtId=\"" + id + "\" formatCode=\"" + escaped(formats_[i]) + "\"/>";
    styles += "<xf numFmtId=\"" + id +
              "\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\" applyNumberFormat=\"1\"/>";
  }
  const auto font = [](const char* size, const char* bold) {
    return std::string("<font>") + bold + "<sz val=\"" + size +
           "\"/><name val=\"Calibri\"/></font>";
  };
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<styleSheet "
         "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">" +
         (formats_.empty() ? std::string()
                           : "<numFmts count=\"" + std::to_string(formats_.size()) + "\">" +
                                 formats + "</numFmts>") +
         "<fonts count=\"3\">" + font("11", "") + font("11", "<b/>") + font("16", "<b/>") +
         "</fonts><fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill><fill>"
         "<patternFill patternType=\"gray125\"/></fill></fills><borders count=\"2\"><border><left/>"
         "<right/><top/><bottom/><diagonal/></border><border><left/><right/><top/><bottom "
         "style=\"thin\"/><diagonal/></border></borders><cellStyleXfs count=\"1\"><xf "
         "numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\"/></cellStyleXfs><cellXfs "
         "count=\"" +
         std::to_string(formats_.size() + 3) +
         "\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\"/>"
         "<xf numFmtId=\"0\" fontId=\"1\" fillId=\"0\" borderId=\"1\" xfId=\"0\" "
         "applyFont=\"1\" applyBorder=\"1\" applyAlignment=\"1\"><alignment wrapText=\"1\" "
         "vertical=\"bottom\"/></xf>"
         "<xf numFmtId=\"0\" fontId=\"2\" fillId=\"0\" borderId=\"0\" xfId=\"0\" "
         "applyFont=\"1\"/>" +
         styles +
         "</cellXfs><cellStyles count=\"1\"><cellStyle name=\"Normal\" xfId=\"0\" "
         "builtinId=\"0\"/></cellStyles></styleSheet>";
}

void SheetRows::add(const std::vector<SheetCell>& row) {
  ++count_;
  const auto number = std::to_string(count_);
  rows_ += "<row r=\"" + number + "\">";
  for (std::size_t i = 0; i < row.size(); ++i) {
    const auto start =
        "<c r=\"" + columnLetters(i) + number + "\" s=\"" + std::to_string(row[i].style) + "\"";
    std::size_t wide = 0;
    if (const auto* value = std::get_if<double>(&row[i].value)) {
      rows_ += start + "><v>" + plainly(*value) + "</v></c>";
      wide = 10;
    } else if (const auto& text = std::get<std::string>(row[i].value); !text.empty()) {
      rows_ += start + " t=\"inlineStr\"><is><t xml:space=\"preserve\">" +
               escaped(withoutControls(text)) + "</t></is></c>";
      wide = row[i].style == SheetStyles::heading ? lettersIn(text) / 2 + 4 : lettersIn(text);
    }
    if (!measures_ && row.size() < 2) continue;
    if (widths_.size() <= i) widths_.resize(i + 1, 8);
    widths_[i] = std::max(widths_[i], std::min<std::size_t>(wide + 2, 48));
  }
  rows_ += "</row>";
}

void SheetRows::addFigure(const FrontFigure& figure) {
  const auto pieces = Pieces(styles_, figure.number);
  std::vector<SheetCell> row{pieces.value(), {figure.words}};
  if (!figure.before.empty()) row.push_back({figure.before});
  add(row);
}

void SheetRows::addTable(const Table& table) {
  measures_ = true;
  struct Asked {
    std::size_t column;
    Piece piece;
  };
  std::vector<Asked> asked;
  std::vector<SheetCell> headings;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    for (const auto piece : {Piece::value, Piece::of, Piece::low, Piece::high, Piece::remark}) {
      const bool isThere = std::ranges::any_of(table.rows, [&](const Cells& row) {
        return Pieces(styles_, row[i]).of(piece).has_value();
      });
      if (piece != Piece::value && !isThere) continue;
      asked.push_back({i, piece});
      headings.push_back({table.columns[i].heading + behindHeading(piece), SheetStyles::heading});
    }
  add(headings);
  for (const auto& row : table.rows) {
    std::vector<SheetCell> cells;
    for (const auto& [column, piece] : asked)
      cells.push_back(Pieces(styles_, row[column]).of(piece).value_or(SheetCell{std::string()}));
    add(cells);
  }
  measures_ = false;
}

std::string SheetRows::columnsXml() const {
  if (widths_.empty()) return "";
  std::string out = "<cols>";
  for (std::size_t i = 0; i < widths_.size(); ++i) {
    const auto at = std::to_string(i + 1);
    out += "<col min=\"" + at + "\" max=\"" + at + "\" width=\"" + std::to_string(widths_[i]) +
           "\" customWidth=\"1\"/>";
  }
  return out + "</cols>";
}

} // namespace gk::reports
