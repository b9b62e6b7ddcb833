#pragma once

#include "base/text.h"
#include "estimates/proportion.h"
#include "reports/print/table.h"
#include "reports/records/words.h"

namespace gk::reports {

/// How figures are written in the cells of every report.

using Cells = std::vector<std::string>;

inline Column right(std::string heading) {
  return {std::move(heading), true};
}

/// A column of dates, kept as 2026-11-17 for files.
inline Column dated(std::string heading) {
  Column column{std::move(heading)};
  column.date = true;
  return column;
}

inline std::string number(int value) {
  return std::to_string(value);
}

inline std::string number(const std::optional<double>& value, int decimals) {
  return value ? base::fixed(*value, decimals) : nothing;
}

/// "87.2" for .872.
inline std::string share(const std::optional<double>& value) {
  return value ? base::percent(*value) : nothing;
}

/// "84.3-89.7"; `nothing` without a range.
inline std::string shareRange(const std::optional<estimates::Interval>& range) {
  return range ? percentRange(range->low, range->high) : nothing;
}

/// "under 0.001", "0.032".
inline std::string pValue(const std::optional<double>& p) {
  if (!p) return nothing;
  return *p < 0.001 ? "under 0.001" : base::fixed(*p, 3);
}

} // namespace gk::reports
