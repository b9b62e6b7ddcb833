#pragma once

#include "base/files/files.h"
#include "store/sqlite/connection.h"

#include <string>
#include <vector>

namespace gk::bench {

/// An invented logbook of so many children (support/large_book.h), made in `folder` once.
base::Path keptBook(const base::Path& folder, int children);

/// An empty logbook that is the same one as `like`, so that it may take it in.
base::Path emptyLike(const base::Path& like, const base::Path& path);

std::vector<std::string> recordTables();

/// Steps through every row of an answer and touches each value, as a bare reader would.
struct Touched {
  double rows = 0;
  std::size_t bytes = 0;
};
void touchAll(store::Statement& rows, int columns, Touched& touched);
Touched touchEveryRow(store::Connection& book);

} // namespace gk::bench
