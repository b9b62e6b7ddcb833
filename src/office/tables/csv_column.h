#pragma once

#include "office/tables/csv_rows.h"

namespace gk::office {

/// A column by its name, and the cell under it in the row at hand; what is wrong is told with line
/// and column.
class CsvColumn {
 public:
  /// `name` is a literal. Fails with `csvMalformed` when it is not there.
  static base::Result<CsvColumn> of(const CsvRows& rows, std::string_view name);

  [[nodiscard]] std::string_view text(const CsvRows& rows) const { return rows.cell(place_); }

  /// Not blank.
  [[nodiscard]] base::Result<std::string_view> label(const CsvRows& rows) const;
  [[nodiscard]] base::Result<double> number(const CsvRows& rows) const;
  /// From 0 to `most`; `what` is "a count" or the like.
  [[nodiscard]] base::Result<double> amount(const CsvRows& rows, double most,
                                            std::string_view what = "a count") const;
  /// A whole number of teeth, up to a thousand million.
  [[nodiscard]] base::Result<double> teeth(const CsvRows& rows) const;

  /// `estimateInput` at the cell.
  [[nodiscard]] base::Error refused(const CsvRows& rows, std::string_view what) const;

 private:
  CsvColumn(std::size_t place, std::string_view name) : place_(place), name_(name) {}
  [[nodiscard]] base::Error at(const CsvRows& rows, base::ErrorCode code,
                               std::string_view what) const;

  std::size_t place_;
  std::string_view name_;
};

} // namespace gk::office
