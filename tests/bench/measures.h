#pragma once

#include "base/files/files.h"
#include "bench/figures.h"

#include <vector>

namespace gk::bench {

/// A logbook to measure with, and of how many children.
struct Kept {
  base::Path path;
  int children;
};

// What one logbook costs, each into the table.
void measureFile(const base::Path& book, int children, Figures& figures);
/// By one child: its card, by number, and the board of the open day (120 children in each).
void measureLookUps(const std::vector<Kept>& logbooks, Figures& figures);
/// Every row, every digest, the pages.
void measureScans(const base::Path& book, int children, Figures& figures);
/// One term against a bare reading of its rows; every term in one pass against each by itself.
void measureTotals(const base::Path& book, int children, Figures& figures);
/// Into an empty logbook, against INSERT ... SELECT of the same rows.
void measureMerge(const base::Path& book, int children, Figures& figures);
/// A durable act of three rows against a bare commit of as many bytes.
void measureAct(Figures& figures);

} // namespace gk::bench
