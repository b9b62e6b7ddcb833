#pragma once

#include "roster/keys/erasure.h"

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace gk::session {

/// What an erasure would take out of the logbook, to be read before it is confirmed.
struct ErasurePlan {
  std::vector<roster::ChildId> cards; ///< all that are one student's, the one asked for first
  std::string number;
  std::map<std::string, std::int64_t> rows; ///< by kind, superseded ones too
  std::int64_t total = 0;                   ///< to be named again when it is confirmed
  std::vector<std::string> counts;          ///< which counts change, in words
};

/// Why a student's records are erased.
struct ErasureGrounds {
  std::string request;   ///< who asked, and how; no names
  std::string authority; ///< the rule that asks for it
  std::string reason;
};

/// An erasure that the logbook lists.
struct ErasureLine {
  base::Recorded<roster::Erasure> record;
  std::string by;    ///< initials; empty where the member is not known
  std::int64_t rows; ///< taken out so far
  /// Copies that may still hold the student: backups that were noted before, and other laptops.
  std::vector<std::string> copies{};
  [[nodiscard]] std::string words() const; ///< a sentence without its full stop
};

struct ErasureDone {
  std::int64_t rows;
  bool isForgotten; ///< false: the file could not be remade
};

/// Said where rows were taken out and the file could not be remade.
inline constexpr std::string_view tracesLeft =
    "The file was not rewritten yet (the disk may be full), so traces of erased students may be "
    "left in it. Free some space, close the logbook and open it again: that rewrites it.";

} // namespace gk::session
