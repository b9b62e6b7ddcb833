#pragma once

#include "base/text/csv.h"

#include <functional>
#include <span>

namespace gk::exchange {

/// A school's list as rows of cells, whoever made the file. Nothing of it is judged yet.
struct ListRows {
  std::vector<base::CsvRow> rows{}; ///< cells without blanks around them; blank rows are not there
  std::vector<std::string> notes{};
};

/// A list is of one school or one program; what is longer is another file.
constexpr std::size_t mostListRows = 20000;

/// Whether the rows of a sheet have the headings of a list.
using IsList = std::function<bool(std::span<const base::CsvRow>)>;

/// Reads a list from the bytes of its file: a workbook as readWorkbook; else text as decodeList,
/// its cells between commas, semicolons, tabs or upright bars, whichever parts the rows most alike;
/// ends of lines as they come. A cell ="00123", as it is written to keep its zeros, is 00123.
/// Columns that are blank in every row go. Fails as those, and with `csvMalformed` where there is
/// no row or more than `mostListRows`, and as base::parseLooseRows.
base::Result<ListRows> readList(std::string_view bytes, const IsList& isList = {});

} // namespace gk::exchange
