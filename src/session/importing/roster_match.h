#pragma once

#include "roster/child/linkage.h"
#include "roster/list/roster_list.h"
#include "session/cards/known_child.h"

#include <optional>
#include <span>

namespace gk::session {

/// That someone looked at a row and a child of the logbook, and what was said.
struct PairAnswer {
  std::size_t row; ///< of the list, from 0
  roster::ChildId child;
  bool isSame;
};

/// A row that may be a child of the logbook: a person says yes or no.
struct UnsurePair {
  std::size_t line;
  std::size_t row;
  std::size_t known; ///< its place among the children that were given
  double weight;     ///< as roster::linkWeight
};

/// Whom each row is.
struct RosterMatches {
  struct Match {
    std::optional<std::size_t> known{};    ///< place of the child; none: no one of the logbook
    std::vector<roster::ChildId> others{}; ///< said to be other children
    std::string problem{};                 ///< why the row waits; empty when it does not
    std::string where{};                   ///< the column that the problem is of
  };
  std::vector<Match> rows{}; ///< one for each line
  std::vector<UnsurePair> pairs{};
};

roster::LinkPerson linkPerson(const Identity& identity, dentition::Sex sex);

/// By the program's number, then by what was answered, then by roster::verdictOn, each child at
/// most once. A row that fits two children alike, or whose child another row took, is unsure. The
/// same in whatever order the children come.
RosterMatches matchRoster(std::span<const roster::RosterLine> lines,
                          std::span<const Identity> identities, std::span<const KnownChild> known,
                          std::span<const PairAnswer> answers);

} // namespace gk::session
