#include "crash/fault_vfs.h"
#include "crash/file_verbs.h"
#include "crash/history.h"
#include "crash/renames.h"
#include "support/long_checks.h"

#include <iostream>

using namespace gk;
using test::Renames;
using test::Room;

namespace {

/// In another process, which dies at that rename; how many there were where it lived.
std::uint64_t lived(const base::Path& folder, const test::FileVerb& verb, std::uint64_t diesAt,
                    bool after) {
  const auto count = test::inAnotherProcess([&] {
    test::Called at{folder};
    Renames::begin(diesAt, after);
    verb.work(at);
    return Renames::count();
  });
  CHECK(count.has_value() == (diesAt == 0));
  return count.value_or(0);
}

/// The same at a call of SQLite's that would change a file of the folder.
std::uint64_t livedThroughCalls(const base::Path& folder, const test::FileVerb& verb,
                                std::uint64_t diesAt) {
  const auto count = test::inAnotherProcess([&] {
    test::Called at{folder};
    test::FaultDisk disk;
    disk.begin(folder, [&](std::uint64_t number, test::DiskCall) {
      return number == diesAt ? test::Fault::kill : test::Fault::none;
    });
    verb.work(at);
    return disk.calls();
  });
  CHECK(count.has_value() == (diesAt == 0));
  return count.value_or(0);
}

} // namespace

TEST_CASE("Killed before or after any rename of a verb that writes a whole file, every logbook is "
          "there and whole, and "
          "nothing is half",
          "[case-324]") {
  std::uint64_t points = 0;
  for (const auto& verb : test::fileVerbs()) {
    INFO(verb.what);
    std::uint64_t renames = 0;
    {
      const Room room;
      renames = lived(room.folder.path(), verb, 0, false);
    }
    CHECK(renames > 0);
    for (std::uint64_t at = 1; at <= renames; ++at)
      for (const bool after : {false, true}) {
        CAPTURE(at, after);
        const Room room;
        const auto acts = test::lookAgain(room.book).ends.size();
        lived(room.folder.path(), verb, at, after);
        test::allIsWhole(room.folder.path(), room.book, acts, verb.acts);
        ++points;
      }
    std::cout << verb.what << ": killed before and after each of " << renames << " renames\n";
  }
  std::cout << "killed at " << points << " points: 0 logbooks lost, 0 halves\n";
}

TEST_CASE(
    "Killed before any of SQLite's calls of a verb that writes a whole file, every logbook is "
    "there and whole, and nothing is half",
    "[case-373]") {
  std::uint64_t points = 0;
  std::uint64_t all = 0;
  std::vector<std::string> byBytes; // written without SQLite; its renames are tried above
  const auto seed = test::seedOr(373);
  for (const auto& verb : test::fileVerbs()) {
    INFO(verb.what);
    std::uint64_t calls = 0;
    {
      const Room room;
      calls = livedThroughCalls(room.folder.path(), verb, 0);
    }
    if (calls == 0) byBytes.push_back(verb.what);
    all += calls;
    const auto every =
        test::isLong() ? 1 : 1 + calls / static_cast<std::uint64_t>(test::rounds(5, 5));
    for (auto at = 1 + seed % every; at <= calls; at += every) {
      CAPTURE(at, seed);
      const Room room;
      const auto acts = test::lookAgain(room.book).ends.size();
      livedThroughCalls(room.folder.path(), verb, at);
      test::allIsWhole(room.folder.path(), room.book, acts, verb.acts);
      ++points;
    }
  }
  CHECK(byBytes == std::vector<std::string>{"a day envelope is unpacked"});
  std::cout << "killed at " << points << " of " << all
            << " calls of SQLite's: 0 logbooks lost, 0 halves\n";
}
