#include "store/digest/hand_memory.h"

#include "support/scratch.h"

#include <array>
#include <catch2/catch.hpp>
#include <map>
#include <set>

using namespace gk;
using store::HandEnd;
using store::HandNews;

namespace {

/// A laptop's folder, and a logbook as far as a memory of hands sees it: where each hand ends.
struct Kept {
  test::Scratch folder;
  base::SeededRandom random{11};
  base::Instant now{base::Milliseconds(1'790'000'000'000)};
  base::Machine machine{"this computer", "this start"};
  base::Uuid book = base::makeUuid7(now, random);
  std::map<base::LaptopId, HandEnd> ends;
  bool isParted = false; ///< copies of the disk were both written on

  [[nodiscard]] store::HandMemory laptop() { return {folder.path(), machine, random}; }
  store::HandMemory::Taken take() {
    return laptop().take(
        book,
        [this](base::LaptopId hand, const HandEnd& remembered) {
          const auto found = ends.find(hand);
          const auto end = found == ends.end() ? HandEnd{} : found->second;
          const bool hasRemembered =
              remembered.sequence == 0 || end == remembered || end.sequence > remembered.sequence;
          return store::HandInBook{end, hasRemembered, isParted};
        },
        now);
  }
  /// As Book::act does.
  void write(const store::HandMemory::Taken& taken) {
    auto& end = ends[taken.hand];
    ++end.sequence;
    random.fill(end.digest);
    if (taken.held) taken.held->wrote(end);
  }
  base::LaptopId wroteOnce() {
    const auto taken = take();
    write(taken);
    return taken.hand;
  }
  [[nodiscard]] base::Path file() const { return folder / "hands" / book.text(); }
};

std::string textOf(const base::Path& path) {
  const auto text = base::readFile(path);
  REQUIRE(text);
  return *text;
}

void put(const base::Path& path, std::string_view text) {
  REQUIRE(base::replaceFile(path, text));
}

/// Ends without what a destructor does, as a killed program.
void kill(store::HandMemory::Taken& taken) {
  static std::array<store::HeldHand*, 32> lost{}; // pointed to for good, so that none is a leak
  static std::size_t next = 0;
  lost.at(next++) = taken.held.release();
}

} // namespace

TEST_CASE("A hand is gone on with where the logbook is just as the laptop left it", "[case-240]") {
  Kept kept;
  CHECK(kept.take().news == HandNews::firstHere);
  const auto one = kept.wroteOnce();
  const auto again = kept.take();
  CHECK(again.hand == one);
  CHECK(again.news == HandNews::same);
}

TEST_CASE("A logbook that lacks what the laptop wrote gets a new hand and says so once",
          "[case-240]") {
  Kept kept;
  const auto hand = kept.wroteOnce();
  const auto backup = kept.ends;
  CHECK(kept.wroteOnce() == hand);
  kept.ends = backup;
  {
    const auto restored = kept.take();
    CHECK(restored.news == HandNews::earlierCopy);
    CHECK(restored.hand != hand);
    kept.write(restored);
  }
  const auto next = kept.take();
  CHECK(next.news == HandNews::same);
  CHECK(next.hand != hand);
}

TEST_CASE("Two copies of a logbook on one laptop never share a hand", "[case-240]") {
  Kept kept;
  kept.wroteOnce();
  const auto copied = kept.ends;
  auto book = kept.ends;
  std::set<std::pair<base::LaptopId, HandEnd>> written;
  auto copy = copied;
  for (int round = 0; round < 20; ++round) {
    auto& open = round % 3 == 0 ? copy : book;
    kept.ends = open;
    const auto hand = kept.wroteOnce();
    open = kept.ends;
    // A sequence of a hand is written once, in whichever copy.
    for (const auto& [one, end] : written)
      CHECK_FALSE((one == hand && end.sequence == open.at(hand).sequence));
    written.emplace(hand, open.at(hand));
  }
}

TEST_CASE("A copied disk, a lost memory and a hand that went on elsewhere each get a new hand",
          "[case-241]") {
  Kept kept;
  const auto hand = kept.wroteOnce();
  SECTION("another computer") {
    kept.machine.id = "another computer";
    const auto taken = kept.take();
    CHECK(taken.news == HandNews::otherMachine);
    CHECK(taken.hand != hand);
  }
  SECTION("a computer that no longer tells which it is") {
    kept.machine.id.reset();
    CHECK(kept.take().hand != hand);
  }
  SECTION("the memory is gone, or not as it was written") {
    const bool isGone = GENERATE(true, false);
    if (isGone)
      std::filesystem::remove(kept.file());
    else
      put(kept.file(), textOf(kept.file()) + " ");
    const auto taken = kept.take();
    CHECK(taken.news == HandNews::firstHere);
    CHECK(taken.hand != hand);
  }
  SECTION("the hand has acts of which the laptop knows nothing") {
    ++kept.ends[hand].sequence;
    const auto taken = kept.take();
    CHECK(taken.news == HandNews::wentOnElsewhere);
    CHECK(taken.hand != hand);
  }
  SECTION("the same number of acts, and other ones") {
    kept.random.fill(kept.ends[hand].digest);
    const auto taken = kept.take();
    CHECK(taken.hand != hand);
    CHECK(taken.news == HandNews::earlierCopy); // what this laptop wrote is not there
    CHECK(taken.lost == hand);
  }
  SECTION("copies of the disk were both written on, and were joined") {
    kept.isParted = true;
    const auto taken = kept.take();
    CHECK(taken.news == HandNews::wentOnElsewhere);
    CHECK(taken.hand != hand);
  }
}

TEST_CASE("A computer that tells nothing of itself is no other computer the next time",
          "[case-241]") {
  Kept kept;
  kept.machine = {};
  const auto hand = kept.wroteOnce();
  CHECK(kept.take().hand == hand);
}

TEST_CASE("A killed program keeps its hand, and a laptop that went off takes a new one",
          "[case-242]") {
  Kept kept;
  const auto hand = kept.wroteOnce();
  const auto backup = kept.ends;
  auto taken = kept.take();
  kept.write(taken);
  kill(taken);
  SECTION("killed") {
    const auto next = kept.take();
    CHECK(next.hand == hand);
    CHECK(next.news == HandNews::same);
  }
  SECTION("killed between an act and what was to be remembered of it") {
    kept.write({hand});
    const auto next = kept.take();
    CHECK(next.hand != hand);
    CHECK(next.news == HandNews::notClosed);
  }
  SECTION("killed, and then a backup was restored") {
    kept.ends = backup;
    const auto next = kept.take();
    CHECK(next.hand != hand);
    CHECK(next.news == HandNews::earlierCopy);
  }
  SECTION("the power went") {
    kept.machine.boot = "the next start";
    const auto next = kept.take();
    CHECK(next.hand != hand);
    CHECK(next.news == HandNews::notClosed);
  }
  SECTION("the power went and took the last word with it, and the backup of before is restored") {
    // The backup ends just where the memory does: only that it was not closed tells them apart.
    put(kept.file().string() + ".now", "");
    kept.machine.boot = "the next start";
    kept.ends = backup;
    CHECK(kept.take().hand != hand);
  }
}

TEST_CASE("Where nothing can be remembered each opening has a hand of its own", "[case-241]") {
  Kept kept;
  put(kept.folder / "hands", "a file in the way");
  const auto one = kept.wroteOnce();
  CHECK(kept.wroteOnce() != one);
}

TEST_CASE("What is remembered tells no one which computer it was", "[case-241]") {
  Kept kept;
  kept.wroteOnce();
  CHECK(textOf(kept.file()).find("this computer") == std::string::npos);
  CHECK(base::thisMachine().id.value_or("x") != "");
}
