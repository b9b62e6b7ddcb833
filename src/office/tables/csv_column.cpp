#include "office/tables/csv_column.h"

#include "base/text/text.h"

#include <cmath>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr double mostTeeth = 1e9;
constexpr std::size_t surelyFew = 9; ///< digits of a number under mostTeeth

/// The plain counts that nearly all cells hold, read the short way; none for anything else.
std::optional<double> plainCount(std::string_view cell) {
  if (cell.empty() || cell.size() > surelyFew) return std::nullopt;
  int count = 0;
  for (const char c : cell) {
    if (c < '0' || c > '9') return std::nullopt;
    count = 10 * count + (c - '0');
  }
  return count;
}

} // namespace

Result<CsvColumn> CsvColumn::of(const CsvRows& rows, std::string_view name) {
  const auto place = rows.column(name);
  if (!place) return place.error();
  return CsvColumn(*place, name);
}

Result<std::string_view> CsvColumn::label(const CsvRows& rows) const {
  const auto cell = text(rows);
  if (cell.empty()) return at(rows, ErrorCode::csvMalformed, "blank; write a label");
  return cell;
}

Result<double> CsvColumn::number(const CsvRows& rows) const {
  auto number = base::parseDouble(text(rows));
  if (!number)
    return at(rows, ErrorCode::csvMalformed,
              text(rows).empty() ? "blank; write a number" : number.error().detail);
  return number;
}

Result<double> CsvColumn::amount(const CsvRows& rows, double most, std::string_view what) const {
  auto amount = number(rows);
  if (!amount) return amount;
  if (*amount < 0) return refused(rows, std::string(what) + " cannot be negative");
  if (*amount > most)
    return refused(rows, std::string(what) + " above " + base::fixed(most, 0) + " is not taken");
  return *amount + 0.0; // no minus zero
}

Result<double> CsvColumn::teeth(const CsvRows& rows) const {
  if (const auto plain = plainCount(text(rows))) return *plain;
  auto count = amount(rows, mostTeeth);
  if (count && *count != std::floor(*count)) return refused(rows, "teeth are whole numbers");
  return count;
}

Error CsvColumn::refused(const CsvRows& rows, std::string_view what) const {
  return at(rows, ErrorCode::estimateInput, what);
}

Error CsvColumn::at(const CsvRows& rows, ErrorCode code, std::string_view what) const {
  return {code, "line " + std::to_string(rows.line()) + ", column " + std::string(name_) + ": " +
                    std::string(what)};
}

} // namespace gk::office
