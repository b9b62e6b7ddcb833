#include "base/files.h"
#include "session/second_laptop.h"
#include "session/whole_content.h"
#include "support/long_checks.h"

#include <algorithm>
#include <set>

using namespace gk;
using test::contentNow;
using test::must;

namespace {

/// A computer with its own folder, clock and memory of hands, and one logbook.
struct Computer {
  base::Path folder;
  base::ManualClock clock;
  base::SeededRandom random;
  base::Machine machine;
  std::optional<session::Session> open{};

  Computer(base::Path where, base::LocalInstant now, std::uint64_t seed)
      : folder(std::move(where)), clock(now),
        random(seed), machine{"computer " + std::to_string(seed), "start"} {
    must(base::makeFolder(folder));
  }
  [[nodiscard]] base::Path book() const { return folder / "day.gkbook"; }

  session::Session& use() {
    if (!open) {
      open.emplace(must(session::Session::open(
          book(), store::HandMemory(folder / "config", machine, random), {clock, random},
          store::Access::readWrite, session::BookKind::throwaway)));
      must(open->unlock(test::Clinic::passphrase));
    }
    return *open;
  }
  void close() {
    if (open) must(open->finish());
    open.reset();
  }
  /// What is carried away on a stick.
  base::Path copyTo(const base::Path& path) {
    must(use().backUp(path));
    return path;
  }
  void restore(const base::Path& backup) {
    close();
    std::filesystem::remove(book());
    std::filesystem::copy_file(backup, book());
  }
  /// As a disk image on another computer.
  void cloneTo(Computer& other) {
    close();
    other.close();
    std::filesystem::remove_all(other.folder);
    std::filesystem::copy(folder, other.folder, std::filesystem::copy_options::recursive);
  }
};

/// A county's logbook, and what its laptops do to it.
struct County {
  test::Clinic clinic;
  std::vector<roster::ChildId> children;
  std::vector<std::unique_ptr<Computer>> laptops;
  int notes = 0;

  explicit County(int count) {
    for (const char* name : {"Mina", "Wren", "Lupe"})
      children.push_back(clinic.child(name));
    for (int i = 0; i < count; ++i) {
      laptops.push_back(std::make_unique<Computer>(*clinic.folder / ("laptop" + std::to_string(i)),
                                                   clinic.clock.now(),
                                                   static_cast<std::uint64_t>(100 + i)));
      must(clinic.session.backUp(laptops.back()->book()));
    }
  }
  Computer& at(std::size_t i) { return *laptops[i]; }

  void note(Computer& on, roster::ChildId child) {
    must(on.use().enterFlag(clinic.by, {.child = child,
                                        .kind = roster::FlagKind::other,
                                        .action = roster::FlagAction::note,
                                        .detail = "note " + std::to_string(++notes)}));
  }
  [[nodiscard]] base::Path fresh(const std::string& name) const {
    return base::freeName(*clinic.folder / (name + ".gkbook"));
  }
};

/// What one logbook says once all of them are merged into it, in this order.
std::vector<std::string> mergedFrom(County& county, const std::vector<base::Path>& files) {
  const auto path = county.fresh("merged");
  std::filesystem::copy_file(files.front(), path);
  auto merged = must(session::Session::open(
      path, base::LaptopId(base::Uuid{}), {county.clinic.clock, county.clinic.random},
      store::Access::readWrite, session::BookKind::throwaway));
  for (const auto& other : files)
    must(merged.absorb(other));
  CHECK(must(merged.findings()).empty());
  return contentNow(merged, county.clinic.folder->path());
}

/// Every order, and each logbook twice.
void allOrdersAgree(County& county, std::vector<base::Path> files, std::size_t mostOrders = 24) {
  std::ranges::sort(files);
  std::set<std::vector<std::string>> contents;
  std::set<std::string> all;
  for (const auto& file : files)
    for (auto& row : test::contentIn(file))
      all.insert(std::move(row));
  std::size_t orders = 0;
  do {
    contents.insert(mergedFrom(county, files));
  } while (++orders < mostOrders && std::ranges::next_permutation(files).found);
  REQUIRE(contents.size() == 1);
  for (const auto& row : all)
    if (!std::ranges::binary_search(*contents.begin(), row)) FAIL_CHECK("lost: " + row);
}

} // namespace

TEST_CASE("A restored backup goes on under a new hand, and takes in what it lost", "[case-240]") {
  County county(2);
  auto& here = county.at(0);
  county.note(here, county.children[0]);
  const auto backup = here.copyTo(county.fresh("backup"));
  here.close();
  county.note(here, county.children[1]);
  const auto carried = here.copyTo(county.fresh("carried"));
  auto& there = county.at(1);
  must(there.use().absorb(carried));
  here.restore(backup);
  CHECK(here.use().copyNotice().find("This logbook is an earlier copy. What this laptop recorded "
                                     "after November 17, 2026") != std::string::npos);
  county.note(here, county.children[2]);
  const auto mine = here.copyTo(county.fresh("mine"));
  CHECK(must(there.use().absorb(mine)).newEntries == 1);
  CHECK(must(here.use().absorb(there.copyTo(county.fresh("theirs")))).newEntries == 1);
  CHECK(contentNow(here.use(), here.folder) == contentNow(there.use(), there.folder));
  here.close();
  CHECK(here.use().copyNotice().empty());
}

TEST_CASE("Two copies of a disk that nobody can tell apart: the merge shows both lines and changes "
          "neither",
          "[case-243]") {
  County county(1);
  auto& laptop = county.at(0);
  county.note(laptop, county.children[0]);
  Computer twin(*county.clinic.folder / "twin", laptop.clock.now(), 300);
  laptop.cloneTo(twin);
  twin.machine = laptop.machine;
  laptop.clock.advance(std::chrono::minutes(7));
  county.note(laptop, county.children[1]);
  county.note(laptop, county.children[2]);
  county.note(twin, county.children[0]);
  const auto number = [&](std::size_t child) {
    return must(county.clinic.session.child(county.children[child])).value.number;
  };
  const auto mine = laptop.copyTo(county.fresh("mine"));
  const auto theirs = twin.copyTo(county.fresh("theirs"));
  const auto before = test::contentIn(mine);
  const auto merge = [](Computer& on, const base::Path& other) {
    const auto merged = on.use().absorb(other);
    REQUIRE_FALSE(merged);
    CHECK(merged.error().code == base::ErrorCode::storeForked);
    return merged.error().detail;
  };
  const auto said = merge(laptop, theirs);
  CHECK(said.find("in this logbook 2 acts since " + laptop.clock.now().text() + ", students " +
                  number(1) + ", " + number(2)) != std::string::npos);
  CHECK(said.find("in the other one 1 act since ") != std::string::npos);
  CHECK(said.find("student " + number(0)) != std::string::npos);
  CHECK(said.find("Do not restore a backup over one of them") != std::string::npos);
  CHECK(merge(twin, mine).find("in the other one 2 acts since ") != std::string::npos);
  CHECK(contentNow(laptop.use(), laptop.folder) == before);
}

TEST_CASE("Every pair of restored, cloned, stale and plain logbooks merges in both directions",
          "[case-244]") {
  enum class Kind { restored, cloned, stale, plain, ahead };
  const auto make = [](County& county, Kind kind, std::size_t at) {
    auto& laptop = county.at(at);
    county.note(laptop, county.children[0]);
    const auto early = laptop.copyTo(county.fresh("early"));
    county.note(laptop, county.children[1]);
    const auto late = laptop.copyTo(county.fresh("late"));
    if (kind == Kind::stale) return early;
    if (kind == Kind::ahead) return late;
    if (kind == Kind::restored) laptop.restore(early);
    if (kind == Kind::cloned) {
      Computer image(*county.clinic.folder / ("image" + std::to_string(at)), laptop.clock.now(),
                     200 + at);
      laptop.cloneTo(image);
      county.note(image, county.children[2]);
      const auto ofImage = image.copyTo(county.fresh("image"));
      county.note(laptop, county.children[2]); // both go on
      must(laptop.use().absorb(ofImage));
    }
    county.note(laptop, county.children[2]);
    return laptop.copyTo(county.fresh("book"));
  };
  constexpr std::array kinds{Kind::restored, Kind::cloned, Kind::stale, Kind::plain, Kind::ahead};
  for (const auto one : kinds)
    for (const auto two : kinds) {
      County county(2);
      INFO(static_cast<int>(one) << " with " << static_cast<int>(two));
      std::vector<base::Path> files{make(county, one, 0), make(county, two, 1)};
      files.push_back(county.at(0).copyTo(county.fresh("again")));
      allOrdersAgree(county, files);
    }
}

TEST_CASE("Four laptops with corrections, restores, disk images and wrong clocks: any order of "
          "merging, and any repetition, says the same",
          "[case-244]") {
  for (int round = 0; round < test::rounds(3, 100); ++round) {
    County county(4);
    base::SeededRandom dice(test::seedOr(700) + static_cast<std::uint64_t>(round));
    std::vector<base::Path> backups;
    for (int i = 0; i < 4; ++i) // two behind, one ahead
      county.at(static_cast<std::size_t>(i))
          .clock.advance(std::chrono::minutes(5 + 40 * static_cast<int>(dice.below(4))));
    for (int step = 0; step < 40; ++step) {
      const auto who = dice.below(4);
      auto& laptop = county.at(who);
      laptop.clock.advance(std::chrono::minutes(1));
      const auto child = county.children[dice.below(county.children.size())];
      switch (dice.below(9)) {
      case 0:
        backups.push_back(laptop.copyTo(county.fresh("backup")));
        break;
      case 1:
        if (!backups.empty()) laptop.restore(backups[dice.below(backups.size())]);
        break;
      case 2:
        laptop.close();
        break;
      case 3: {
        auto& other = county.at((who + 1 + dice.below(3)) % 4);
        laptop.cloneTo(other);
        break;
      }
      case 4: {
        const auto file = county.at((who + 1) % 4).copyTo(county.fresh("carried"));
        must(laptop.use().absorb(file));
        break;
      }
      case 5:
      case 6: {
        const auto card = must(laptop.use().child(child));
        must(laptop.use().moveChild(county.clinic.by, child, county.clinic.school, card.value.grade,
                                    "room " + std::to_string(step), "moved"));
        break;
      }
      default:
        county.note(laptop, child);
      }
    }
    std::vector<base::Path> files = backups;
    files.resize(std::min<std::size_t>(files.size(), 2));
    for (std::size_t i = 0; i < 4; ++i)
      files.push_back(county.at(i).copyTo(county.fresh("end")));
    allOrdersAgree(county, files, 8);
  }
}
