#pragma once

#include "base/identity/entry.h"

#include <string>
#include <vector>

namespace gk::store {

/// One entry of the history, of whatever kind.
struct HistoryLine {
  base::Stamp stamp;
  base::Uuid subject;
  base::EntryId act; ///< the first row of the act that wrote it
  std::string kind;
  std::string verb; ///< empty in rows of books that did not keep it yet
  base::Station station;
  bool current;
};

/// Which rows a book holds, to see whether any came since: rows are only ever added.
struct Edition {
  base::EntryId newest;
  int merges; ///< since it was opened: a merge may bring rows older than `newest`

  bool operator==(const Edition&) const = default;
};

/// What a book knows of a child from other days.
struct ChildPast {
  bool seenThisTerm;  ///< screened or checked on another day of the term
  bool placedEarlier; ///< has a complete placement of another term
};

/// What two laptops said of one thing while apart, each thing with all its words.
struct Rivals {
  std::string kind;
  base::Uuid subject;
  std::vector<base::EntryId> words;
};

} // namespace gk::store
