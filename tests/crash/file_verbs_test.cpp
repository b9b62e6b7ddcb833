#include "crash/fault_vfs.h"
#include "crash/file_verbs.h"
#include "crash/history.h"
#include "crash/renames.h"
#include "store/schema/migration.h"
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

/// The program's own schema and a made-up next step.
base::Result<store::Connection> broughtUpToDate(const base::Path& book) {
  auto steps = store::migrations();
  steps.push_back({static_cast<int>(steps.size()) + 1, "next",
                   "ALTER TABLE wet ADD COLUMN seen TEXT NOT NULL DEFAULT 'not said';"
                   "CREATE TABLE later (n INTEGER PRIMARY KEY) STRICT;"});
  return store::openBook(book, store::Access::readWrite, store::Durability::everyAct,
                         {base::Milliseconds(1)}, store::Checkup::whole, steps);
}

const test::FileVerb update{"a logbook is brought up to date", [](test::Called& at) {
                              base::require(broughtUpToDate(at.folder / "day.gkbook").has_value(),
                                            "a logbook that can be brought up to date");
                            }};

/// As a person finds the logbook after that: in its old version or its new one, with every act, and
/// the copy of before whole where there is one. Then it is brought up to date.
void isOldOrNew(const Room& room, std::size_t acts) {
  for (const auto& entry : std::filesystem::directory_iterator(room.folder.path())) {
    const auto name = entry.path().filename().string();
    INFO(name);
    CHECK_FALSE(name.ends_with("-wal"));
    if (!name.starts_with("day.before-")) continue;
    const auto found = test::lookAgain(entry.path());
    INFO(found.why);
    CHECK_FALSE(found.isRefused);
    CHECK(found.ends.size() == acts);
  }
  const auto old = test::lookAgain(room.book);
  INFO(old.why);
  if (old.isRefused)
    CHECK(old.why.starts_with("store.newer-schema"));
  else
    CHECK(old.ends.size() == acts);
  auto book = broughtUpToDate(room.book);
  REQUIRE(book.has_value());
  CHECK(store::userVersion(*book) == std::ssize(store::migrations()) + 1);
  CHECK(test::must(store::integrity(*book)).empty());
  CHECK(store::historyFaults(*book, "main", store::ownTables(*book)).empty());
  CHECK(test::actEnds(*book).size() == acts);
  for (const auto& entry : std::filesystem::directory_iterator(room.folder.path()))
    CHECK_FALSE(entry.path().filename().string().starts_with(".groovekeeper"));
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

TEST_CASE("Killed at any of SQLite's calls or renames while it is brought up to date, a logbook is "
          "whole in its old version or its new one",
          "[case-373]") {
  std::uint64_t calls = 0;
  std::uint64_t renames = 0;
  {
    const Room room;
    calls = livedThroughCalls(room.folder.path(), update, 0);
  }
  {
    const Room room;
    renames = lived(room.folder.path(), update, 0, false);
  }
  REQUIRE(calls > 20);
  REQUIRE(renames == 1); // the copy of before
  const auto seed = test::seedOr(374);
  const auto every =
      test::isLong() ? 1 : 1 + calls / static_cast<std::uint64_t>(test::rounds(15, 15));
  std::uint64_t points = 0;
  for (auto at = 1 + seed % every; at <= calls; at += every) {
    CAPTURE(at, seed);
    const Room room;
    const auto acts = test::lookAgain(room.book).ends.size();
    livedThroughCalls(room.folder.path(), update, at);
    isOldOrNew(room, acts);
    ++points;
  }
  for (const bool after : {false, true}) {
    CAPTURE(after);
    const Room room;
    const auto acts = test::lookAgain(room.book).ends.size();
    lived(room.folder.path(), update, 1, after);
    isOldOrNew(room, acts);
  }
  std::cout << "brought up to date: killed at " << points << " of " << calls
            << " calls of SQLite's and about its rename: 0 logbooks lost, 0 halves\n";
}
