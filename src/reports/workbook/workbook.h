#pragma once

#include "base/result.h"
#include "reports/print/table.h"

#include <span>
#include <string>
#include <string_view>

namespace gk::reports {

/// The bytes of one workbook (.xlsx, ECMA-376): a first sheet that says what it is, with whatever
/// the report says in sentences, then a sheet for each table. Headings stand in the first row,
/// frozen; numbers, shares and dates are numbers, as many digits of them as are printed, and what
/// an estimate has beside its value stands in columns of its own: its low and high end, what it is
/// of, remarks. Words are never formulas. Notes stand below the rows; `mark` is printed on every
/// page. The same bytes for the same report.
base::Result<std::string> toWorkbook(std::string_view title, std::span<const Table> tables,
                                     std::string_view version = {}, std::string_view mark = {});

/// The tables as sheets are called: at most 31 letters, none that a sheet's name may not have, each
/// once.
std::vector<std::string> sheetNames(std::span<const Table> tables);

} // namespace gk::reports
