#pragma once

#include "session/book/snapshot.h"
#include "support/clinic.h"

#include <functional>
#include <vector>

// What writes whole files of a logbook, each to be killed in the middle.
namespace gk::test {

/// A clinic's logbook with one child, a copy of it from before she came, that one's day envelope,
/// and what a laptop remembers.
struct Room {
  test::Scratch folder;
  base::Path book = folder / "day.gkbook";
  base::Path before = folder / "before.gkbook";
  Room();
};

/// One process that calls a verb.
struct Called {
  const base::Path& folder;
  base::ManualClock clock{base::LocalInstant{base::Instant{base::Milliseconds(1'794'924'000'000)},
                                             std::chrono::minutes(-300)}};
  base::SeededRandom random{260};
  session::World world{clock, random};
  store::HandMemory laptop{folder / "config", {"computer", "start"}, random};

  session::Session open(const char* name);
  session::Snapshot still(session::Session& book);
};

struct FileVerb {
  const char* what;
  std::function<void(Called&)> work;
  std::size_t acts = 0; ///< that it writes
};
const std::vector<FileVerb>& fileVerbs();

/// Runs `work` in another process; what it tells of itself at its end, or none where it was killed.
std::optional<std::uint64_t> inAnotherProcess(const std::function<std::uint64_t()>& work);

/// Every logbook of the folder is whole and none has lost an act; nothing hidden is left once it
/// was opened again.
void allIsWhole(const base::Path& folder, const base::Path& book, std::size_t acts,
                std::size_t more);

} // namespace gk::test
