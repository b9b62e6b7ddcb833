#pragma once

#include "roster/child/background.h"
#include "session/cards/identity.h"

#include <set>
#include <utility>
#include <vector>

namespace gk::session {

/// Whom of the logbook the rows of a list may be, before they are looked at one by one.
struct Sought {
  roster::SchoolId school;                     ///< all of that school
  std::set<std::pair<int, unsigned>> months{}; ///< year and month of a birth date
  std::set<std::string> called{};              ///< used names, folded
  std::set<std::string> numbers{};
};

/// A child of the logbook, with who it is.
struct KnownChild {
  base::Recorded<roster::Child> card;
  Identity identity;
};

} // namespace gk::session
