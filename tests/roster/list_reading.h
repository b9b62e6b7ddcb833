#pragma once

#include "base/text/text.h"
#include "roster/list/roster_list.h"

namespace gk::roster::test {

inline std::vector<base::CsvRow> rowsOf(const std::string& csv) {
  auto rows = base::parseLooseRows(csv.starts_with("\xEF\xBB\xBF") ? csv.substr(3) : csv, ',');
  return rows ? std::move(*rows) : std::vector<base::CsvRow>();
}

/// All lines of a list, or what keeps one of them from being taken.
inline base::Result<std::vector<RosterLine>> readList(const std::string& csv, base::Date today) {
  const auto rows = rowsOf(csv);
  const auto layout = suggestLayout(rows);
  if (const auto open = layoutProblems(layout); !open.empty())
    return base::Error{base::ErrorCode::csvMalformed, base::join(open, "; ")};
  auto reading = readRoster(rows, layout, today);
  if (!reading.held.empty()) return problemsError(reading.held);
  return std::move(reading.lines);
}

} // namespace gk::roster::test
