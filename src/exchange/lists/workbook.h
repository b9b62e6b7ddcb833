#pragma once

#include "exchange/lists/list_rows.h"

namespace gk::exchange {

/// Whether the bytes begin as a packed file does, which .xlsx and .ods are.
bool isPacked(std::string_view bytes);

/// What a workbook may be unpacked to: a list of a school is a thousandth of it.
struct WorkbookLimits {
  std::size_t files = 1000;                          ///< in the package
  std::size_t bytes = std::size_t{48} * 1024 * 1024; ///< of all parts that are read, unpacked
  std::size_t ratio = 200;                           ///< unpacked to packed, of one part
  int depth = 64;                                    ///< of elements within elements
};

/// One sheet of an .xlsx (ECMA-376) or .ods (ISO/IEC 26300) workbook, as rows of texts: the first
/// that is shown and is a list, or else the first that is shown. A note names it and those that
/// were not read. Numbers are as they are kept, dates as 2019-03-04, formulas their last value.
/// Fails with `csvMalformed` where it is another packed file, damaged, has a password, a document
/// type (so that no entity is ever expanded), is beyond the limits, or as readList.
base::Result<ListRows> readWorkbook(std::string_view bytes, const IsList& isList = {},
                                    const WorkbookLimits& limits = {});

} // namespace gk::exchange
