#pragma once

#include "roster/list/roster_list.h"

#include <string>
#include <vector>

namespace gk::test {

/// A school's list as an office may send it, of invented children, and what is to come of it in the
/// logbook of `KnownRoster`.
struct MessyRoster {
  std::string what; ///< a few words, for the table
  std::string bytes;
  std::size_t entering = 0;  ///< children accepted as new
  std::size_t changed = 0;   ///< matched, and something of them is new
  std::size_t unchanged = 0; ///< matched, and nothing is
  std::size_t unsure = 0;    ///< pairs for a person; the row is among the held
  std::size_t held = 0;      ///< rows that wait
  std::size_t skipped = 0;   ///< rows that are no child
  bool isRefused = false;    ///< the whole file
  roster::DateOrder dates = roster::DateOrder::unsaid;   ///< as a person answered
  roster::EarlyGrades early = roster::EarlyGrades::hold; ///< the same
};

/// Of bytes and separators, of rows, of cells, of matches.
std::vector<MessyRoster> messyRosters();
std::vector<MessyRoster> messyBytes();
std::vector<MessyRoster> messyRows();
std::vector<MessyRoster> messyCells();
std::vector<MessyRoster> messyMatches();
std::vector<MessyRoster> messyWorkbooks();

} // namespace gk::test
