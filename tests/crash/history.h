#pragma once

#include "store/connection.h"

#include <vector>

namespace gk::test {

/// After which numbers of rows the book of this laptop stands between two acts.
inline std::vector<std::int64_t> actEnds(store::Connection& book) {
  auto statement = book.prepare(
      "SELECT max(sequence) AS last FROM every_entry WHERE laptop = (SELECT laptop FROM "
      "every_entry ORDER BY id LIMIT 1) GROUP BY act ORDER BY last");
  std::vector<std::int64_t> ends;
  while (statement.step())
    ends.push_back(statement.column<std::int64_t>(0));
  return ends;
}

} // namespace gk::test
