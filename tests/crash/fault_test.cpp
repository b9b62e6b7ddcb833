#include "crash/fault_vfs.h"
#include "crash/history.h"
#include "store/book_file.h"
#include "support/clinic.h"
#include "support/long_checks.h"

#include <iostream>

using namespace gk;
using test::actEnds;
using test::DiskCall;
using test::Fault;
using test::lookAgain;
using test::must;
using test::Trust;

namespace {

/// A book with a day open and children waiting, and what a short piece of that day does with it.
class ShortDay {
 public:
  static constexpr int acts = 12;

  ShortDay() : clinic_(folder_ / "made.gkbook", session::BookKind::throwaway) {
    for (int i = 0; i < 8; ++i)
      children_.push_back(clinic_.child("Wren", "Castlebury"));
    must(clinic_.session.finish());
    std::filesystem::copy_file(folder_ / "made.gkbook", folder_ / "first.gkbook");
    auto book = must(store::openBook(folder_ / "first.gkbook", store::Access::readOnly,
                                     store::Durability::everyAct, {}));
    before_ = actEnds(book);
  }

  /// A copy to work on; the same name each time.
  [[nodiscard]] base::Path fresh() const {
    const auto path = folder_ / "day.gkbook";
    std::filesystem::remove(path.string() + "-journal");
    std::filesystem::copy_file(folder_ / "first.gkbook", path,
                               std::filesystem::copy_options::overwrite_existing);
    return path;
  }
  [[nodiscard]] base::Result<session::Session> open(const base::Path& path) {
    return session::Session::open(path, clinic_.laptop, {clinic_.clock, clinic_.random});
  }

  /// What became of each act, in order; none where it is acknowledged.
  std::vector<std::optional<base::ErrorCode>> work(session::Session& session) {
    std::vector<std::optional<base::ErrorCode>> became;
    const auto note = [&](const auto& result) {
      became.push_back(result ? std::nullopt : std::optional(result.error().code));
    };
    for (std::size_t i = 0; i < children_.size(); ++i) {
      const auto child = children_[i];
      if (i % 2 == 0) {
        note(session.endVisit(clinic_.by, {child, clinic_.day, chairside::DayEnd::absent, {}, {}}));
        continue;
      }
      note(session.seat(clinic_.by,
                        {child,
                         clinic_.day,
                         {chairside::Identifier::spokenName, chairside::Identifier::birthDate}}));
      note(session.screen(clinic_.by, clinic_.fourSound(child)));
    }
    return became;
  }

  [[nodiscard]] const std::vector<std::int64_t>& before() const { return before_; }

 private:
  test::Scratch folder_;
  test::Clinic clinic_;
  std::vector<roster::ChildId> children_{};
  std::vector<std::int64_t> before_{};
};

/// How many rows each act has that came after the first ones.
std::vector<std::int64_t> sizes(const std::vector<std::int64_t>& ends, std::size_t first) {
  std::vector<std::int64_t> rows;
  for (std::size_t i = first; i < ends.size(); ++i)
    rows.push_back(ends[i] - ends[i - 1]);
  return rows;
}

struct Whole {
  std::uint64_t calls;
  std::vector<std::int64_t> ends;
};

Whole wholeDay(ShortDay& day) {
  test::FaultDisk disk;
  const auto path = day.fresh();
  disk.begin(path, {});
  {
    auto session = must(day.open(path));
    for (const auto& failed : day.work(session))
      REQUIRE_FALSE(failed);
  }
  const auto calls = disk.calls();
  disk.restart(0);
  return {calls, lookAgain(path).ends};
}

} // namespace

TEST_CASE("An act that a disk's error refuses is not kept, unless it says that it may be",
          "[case-258]") {
  ShortDay day;
  const auto whole = wholeDay(day);
  const auto rows = sizes(whole.ends, day.before().size());
  REQUIRE(rows.size() == ShortDay::acts);
  std::uint64_t kept = 0;
  std::uint64_t unsure = 0;
  std::uint64_t points = 0;
  const auto seed = test::seedOr(258);
  const auto every = test::oneOf(9);
  for (const auto fault : {Fault::ioError, Fault::noSpace, Fault::shortWrite, Fault::afterIoError})
    for (auto at = 1 + seed % every; at <= whole.calls; at += every) {
      ++points;
      CAPTURE(static_cast<int>(fault), at);
      const auto path = day.fresh();
      test::FaultDisk disk;
      auto hit = DiskCall::create;
      disk.begin(path, [&](std::uint64_t number, DiskCall call) {
        if (number != at) return Fault::none;
        hit = call;
        return fault;
      });
      std::vector<std::optional<base::ErrorCode>> became;
      {
        auto session = day.open(path);
        if (session) became = day.work(*session);
      }
      disk.restart(at);
      const auto found = lookAgain(path);
      REQUIRE_FALSE(found.isRefused);
      const auto there = sizes(found.ends, day.before().size());
      // What was acknowledged, and what was said to be unsure, in order.
      std::size_t place = 0;
      for (std::size_t i = 0; i < became.size(); ++i) {
        const bool isThere = place < there.size() && there[place] == rows[i];
        if (!became[i]) {
          REQUIRE(isThere);
          ++place;
        } else if (became[i] == base::ErrorCode::storeUnsure) {
          ++unsure;
          // Kept when more is there than was acknowledged after it.
          const auto later = std::count(became.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                        became.end(), std::nullopt);
          if (there.size() - place > static_cast<std::size_t>(later)) {
            ++kept;
            ++place;
          }
        }
      }
      std::string codes;
      for (const auto& code : became)
        codes += code ? std::string(base::errorName(*code)) + " " : "ok ";
      CAPTURE(codes, static_cast<int>(hit));
      CHECK(place == there.size()); // nothing that was refused, and no half
    }
  if (points > 100) CHECK(kept > 0); // only where it fails at the very end, which few points are
  std::cout << "a disk's error at " << points << " of " << 4 * whole.calls
            << " points: 0 acknowledged acts lost, 0 refused acts kept; " << unsure
            << " said to be unsure, " << kept << " of them kept\n";
}

TEST_CASE(
    "Power lost at any call leaves whole acts, every acknowledged one, or a book that says it "
    "is damaged",
    "[case-259]") {
  ShortDay day;
  const auto whole = wholeDay(day);
  const auto seed = test::seedOr(259);
  for (const auto trust : {Trust::honest, Trust::losesNames, Trust::liesInOrder, Trust::lies}) {
    const int seeds = test::rounds(25, 500);
    int lost = 0;
    int refused = 0;
    int silent = 0;
    for (int round = 0; round < seeds; ++round) {
      base::SeededRandom random(seed + static_cast<std::uint64_t>(round));
      const auto at = 1 + random.below(whole.calls);
      CAPTURE(static_cast<int>(trust), seed, round, at);
      const auto path = day.fresh();
      test::FaultDisk disk(trust);
      disk.begin(path, [&](std::uint64_t number, DiskCall) {
        return number == at ? Fault::powerGone : Fault::none;
      });
      std::size_t acknowledged = 0;
      {
        auto session = day.open(path);
        if (session)
          for (const auto& failed : day.work(*session))
            if (!failed) ++acknowledged;
      }
      disk.restart(random.below(std::uint64_t{1} << 60U));
      const auto found = lookAgain(path);
      if (found.isRefused) {
        if (trust == Trust::honest) UNSCOPED_INFO(found.why << ", call " << at);
        ++refused;
        continue;
      }
      const bool isWhole = found.ends.size() <= whole.ends.size() &&
                           std::equal(found.ends.begin(), found.ends.end(), whole.ends.begin());
      CHECK(isWhole);
      if (!isWhole) ++silent;
      if (found.ends.size() < day.before().size() + acknowledged) ++lost;
    }
    if (trust == Trust::honest) {
      CHECK(lost == 0);
      CHECK(refused == 0);
    }
    CHECK(silent == 0);
    const auto* words = trust == Trust::honest        ? "an honest disk"
                        : trust == Trust::losesNames  ? "a disk that loses names"
                        : trust == Trust::liesInOrder ? "a disk that never syncs, in order"
                                                      : "a disk that never syncs, in any order";
    std::cout << words << ", power lost at " << seeds << " points: " << lost
              << " with whole acts missing from the end, " << refused << " said to be damaged, "
              << silent << " silent\n";
  }
}
