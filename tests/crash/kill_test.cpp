#include "crash/clinic_day.h"
#include "crash/fault_vfs.h"
#include "crash/history.h"
#include "store/audit.h"
#include "store/book_file.h"
#include "support/long_checks.h"

#include <csignal>
#include <iostream>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace gk;
using test::actEnds;
using test::clinicDay;
using test::must;

namespace {

/// Rows of a merge: those that this book's own laptop did not write.
std::int64_t broughtRows(store::Connection& book) {
  auto statement = book.prepare("SELECT count(*) FROM every_entry WHERE laptop <> (SELECT laptop "
                                "FROM every_entry ORDER BY id LIMIT 1)");
  statement.step();
  return statement.column<std::int64_t>(0);
}

/// The day in another process, which `kill` sees to; how many acts were acknowledged in the end.
/// `kill` is told the process and how many acts were acknowledged so far.
struct Acknowledged {
  int from;
  std::size_t count = 0;
  bool more() {
    char byte = 0;
    if (::read(from, &byte, 1) != 1) return false;
    ++count;
    return true;
  }
};

template <class Day, class Kill>
std::size_t otherProcess(Day day, Kill kill) {
  int ends[2];
  base::require(::pipe(ends) == 0, "no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    day(ends[1]);
    ::_exit(0);
  }
  ::close(ends[1]);
  Acknowledged heard{ends[0]};
  kill(child, heard);
  int status = 0;
  ::waitpid(child, &status, 0);
  while (heard.more()) {
  }
  ::close(ends[0]);
  return heard.count;
}

/// Runs the day in another process and kills it once `after` acts were acknowledged and a moment
/// more has passed.
std::size_t killedDay(const base::Path& book, std::size_t after, std::chrono::microseconds moment) {
  return otherProcess(
      [&](int acknowledge) { clinicDay(book, session::BookKind::real, acknowledge); },
      [&](pid_t child, Acknowledged& heard) {
        while (heard.count < after && heard.more()) {
        }
        const auto until = std::chrono::steady_clock::now() + moment;
        while (std::chrono::steady_clock::now() < until) {
        }
        ::kill(child, SIGKILL);
      });
}

/// The day, which dies before its SQLite's call of that number in the book's folder; none is never.
std::size_t killedAtCall(const base::Path& book, std::uint64_t call, std::uint64_t* calls) {
  return otherProcess(
      [&](int acknowledge) {
        test::FaultDisk disk;
        disk.begin(book.parent_path(), [&](std::uint64_t number, test::DiskCall) {
          return number == call ? test::Fault::kill : test::Fault::none;
        });
        clinicDay(book, session::BookKind::real, acknowledge);
        if (calls) *calls = disk.calls();
      },
      [](pid_t, const Acknowledged&) {});
}

std::size_t hiddenFiles(const base::Path& folder) {
  std::size_t count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().filename().string().starts_with(".groovekeeper")) ++count;
  return count;
}

} // namespace

TEST_CASE("A day killed at random points keeps every acknowledged act and none by halves",
          "[case-68]") {
  test::Scratch folder;
  int ends[2];
  REQUIRE(::pipe(ends) == 0);
  clinicDay(folder / "whole.gkbook", session::BookKind::throwaway, ends[1]);
  ::close(ends[1]);
  std::size_t acts = 0;
  char byte = 0;
  while (::read(ends[0], &byte, 1) == 1)
    ++acts;
  ::close(ends[0]);
  std::vector<std::int64_t> whole;
  std::int64_t brought = 0;
  {
    auto book = must(store::openBook(folder / "whole.gkbook", store::Access::readOnly,
                                     store::Durability::everyAct, {}));
    whole = actEnds(book);
    brought = broughtRows(book);
  }
  REQUIRE(acts > 60);
  REQUIRE(brought > 0);
  // Acts of setting up, before the day; the merge is acknowledged and is no act of this laptop.
  const std::size_t morning = whole.size() - (acts - 1);

  const auto seed = test::seedOr(25);
  base::SeededRandom random(seed);
  const int points = test::rounds(25, 200);
  std::size_t merged = 0;
  std::size_t lost = 0;
  for (int round = 0; round < points; ++round) {
    const auto path = folder / ("killed-" + std::to_string(round) + ".gkbook");
    const auto act = 1 + random.below(acts - 1);
    const std::chrono::microseconds after(random.below(3000));
    const auto acknowledged = killedDay(path, act, after);
    CAPTURE(seed, round, acknowledged);
    // Opened for writing first: that is what rolls a half-written act back.
    auto book = must(store::openBook(path, store::Access::readWrite, store::Durability::everyAct,
                                     {base::Milliseconds(1)}));
    CHECK(must(store::integrity(book)).empty());
    CHECK(store::historyFaults(book, "main", store::newestSchema()).empty());
    const auto kept = actEnds(book);
    const auto rows = broughtRows(book);
    CHECK((rows == 0 || rows == brought)); // a merge is there whole or not at all
    const std::size_t found = kept.size() + (rows > 0 ? 1 : 0);
    CHECK(found >= morning + acknowledged);
    if (found < morning + acknowledged) ++lost;
    if (rows > 0) ++merged;
    REQUIRE(kept.size() <= whole.size());
    CHECK(std::equal(kept.begin(), kept.end(), whole.begin()));
  }
  std::cout << "killed at " << points << " points of " << acts << " acts (seed " << seed << "), "
            << merged << " of them after the merge: " << lost << " acknowledged acts lost\n";
}

TEST_CASE("A day killed at each of SQLite's calls keeps every acknowledged act and none by halves",
          "[case-260]") {
  test::Scratch folder;
  // The number of calls comes back from the process that has them.
  auto* calls = static_cast<std::uint64_t*>(::mmap(
      nullptr, sizeof(std::uint64_t), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0));
  REQUIRE(calls != MAP_FAILED);
  const auto all = folder / "whole";
  std::filesystem::create_directory(all);
  const auto acts = killedAtCall(all / "day.gkbook", 0, calls);
  REQUIRE(acts > 60);
  REQUIRE(*calls > 500);
  std::vector<std::int64_t> whole;
  std::int64_t brought = 0;
  {
    auto book = must(store::openBook(all / "day.gkbook", store::Access::readOnly,
                                     store::Durability::everyAct, {}));
    whole = actEnds(book);
    brought = broughtRows(book);
  }
  const std::size_t morning = whole.size() - (acts - 1);
  const auto seed = test::seedOr(260);
  const auto every =
      test::isLong() ? 1 : 1 + *calls / static_cast<std::uint64_t>(test::rounds(40, 1));
  std::size_t lost = 0;
  std::size_t points = 0;
  const auto last = test::toOr(*calls);
  for (auto at = test::fromOr(1 + seed % every); at <= last; at += every) {
    ++points;
    const auto place = folder / std::to_string(at);
    std::filesystem::create_directory(place);
    const auto path = place / "day.gkbook";
    const auto acknowledged = killedAtCall(path, at, nullptr);
    CAPTURE(at, acknowledged);
    if (!std::filesystem::exists(path)) { // it was still being made
      CHECK(acknowledged == 0);
      continue;
    }
    {
      auto book = must(store::openBook(path, store::Access::readWrite, store::Durability::everyAct,
                                       {base::Milliseconds(1)}));
      CHECK(must(store::integrity(book)).empty());
      CHECK(store::historyFaults(book, "main", store::newestSchema()).empty());
      const auto kept = actEnds(book);
      const auto rows = broughtRows(book);
      CHECK((rows == 0 || rows == brought)); // a merge is there whole or not at all
      const std::size_t found = kept.size() + (rows > 0 ? 1 : 0);
      CHECK(found >= std::min(morning, kept.size()) + acknowledged);
      if (acknowledged > 0 && found < morning + acknowledged) ++lost;
      REQUIRE(kept.size() <= whole.size());
      CHECK(std::equal(kept.begin(), kept.end(), whole.begin()));
    }
    CHECK(hiddenFiles(place) == 0); // what a killed backup left is gone with the next opening
    std::filesystem::remove_all(place);
  }
  CHECK(lost == 0);
  std::cout << "killed at " << points << " of " << *calls << " calls of SQLite's: " << lost
            << " acknowledged acts lost\n";
  ::munmap(calls, sizeof(std::uint64_t));
}
