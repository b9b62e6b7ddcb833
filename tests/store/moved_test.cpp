#include "base/files/files.h"
#include "store/book.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <iostream>
#include <memory>
#include <set>

// What may befall the file of a logbook while it is open, and when: by hand, by a program that
// synchronizes folders, by a restore over it.

namespace gk::test {

namespace fs = std::filesystem;
using base::ErrorCode;
using base::Path;
using store::Book;
using store::Checkup;

namespace {

const base::LocalInstant whenMoved{base::Instant{base::Milliseconds(1'794'924'000'000)},
                                   std::chrono::minutes(-300)};
constexpr auto everyAct = store::Durability::everyAct;

enum class Fate {
  deleted,
  renamed,
  copyInPlace,
  otherBookInPlace,
  damagedInPlace,
  linkToIt,
  linkElsewhere,
  folderInPlace,
  folderRenamed,
  folderReplaced
};
constexpr std::array fates{
    std::pair(Fate::deleted, "deleted"),
    std::pair(Fate::renamed, "renamed"),
    std::pair(Fate::copyInPlace, "replaced by its copy"),
    std::pair(Fate::otherBookInPlace, "replaced by another logbook"),
    std::pair(Fate::damagedInPlace, "replaced by a damaged one"),
    std::pair(Fate::linkToIt, "moved, and a link to it left"),
    std::pair(Fate::linkElsewhere, "replaced by a link to another"),
    std::pair(Fate::folderInPlace, "replaced by a folder"),
    std::pair(Fate::folderRenamed, "its folder renamed"),
    std::pair(Fate::folderReplaced, "its folder replaced"),
};

enum class Moment { betweenActs, withinAct, withinTwo, merging, backingUp, checking };
constexpr std::array moments{
    std::pair(Moment::betweenActs, "between two acts"),
    std::pair(Moment::withinAct, "within an act"),
    std::pair(Moment::withinTwo, "within acts kept together"),
    std::pair(Moment::merging, "during a merge"),
    std::pair(Moment::backingUp, "during a backup"),
    std::pair(Moment::checking, "during the check in the background"),
};

base::Random& dice() {
  static base::SeededRandom random(3);
  return random;
}

struct Taken {
  Scratch folder;
  Path room = folder / "room";
  Path path = room / "day.gkbook";
  Path other = folder / "other.gkbook"; ///< a second laptop's, with a school of its own
  Path copy = folder / "copy.gkbook";
  base::LaptopId laptop{base::makeUuid7(whenMoved.at, dice())};
  std::unique_ptr<Book> book;

  Taken() {
    fs::create_directory(room);
    {
      auto made = Book::create(path, laptop, everyAct, whenMoved.at,
                               {std::vector<std::uint8_t>(16, 1), 3, 65536,
                                std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                               dice());
      REQUIRE(made.has_value());
      REQUIRE(made->backUp(other).has_value());
      auto second = Book::open(other, base::LaptopId(base::makeUuid7(whenMoved.at, dice())),
                               store::Access::readWrite, everyAct, whenMoved.at, Checkup::whole);
      REQUIRE(second.has_value());
      REQUIRE(enter(*second, "Heron Bend").has_value());
      REQUIRE(enter(*made, "Cobble Lantern").has_value());
      REQUIRE(made->backUp(copy).has_value());
    }
    auto opened = Book::open(path, laptop, store::Access::readWrite, everyAct, whenMoved.at,
                             Checkup::meanwhile);
    REQUIRE(opened.has_value());
    book = std::make_unique<Book>(std::move(*opened));
  }

  static base::Result<base::Done> enter(Book& book, const std::string& school,
                                        const std::function<void()>& meanwhile = {}) {
    return book.act({}, whenMoved, [&](store::Act& act) {
      act.add(roster::School{school, school.substr(0, 2)});
      if (meanwhile) meanwhile();
    });
  }
  void befall(Fate fate) const {
    const auto away = folder / "elsewhere.gkbook";
    const auto put = [&](const Path& in) { fs::copy_file(in, path); };
    if (fate != Fate::folderRenamed && fate != Fate::folderReplaced)
      fate == Fate::deleted ? void(fs::remove(path)) : fs::rename(path, away);
    switch (fate) {
    case Fate::deleted:
    case Fate::renamed:
      return;
    case Fate::copyInPlace:
      return put(copy);
    case Fate::otherBookInPlace:
      return put(other);
    case Fate::damagedInPlace:
      put(copy);
      return fs::resize_file(path, fs::file_size(path) / 2 + 100);
    case Fate::linkToIt:
      return fs::create_symlink(away, path);
    case Fate::linkElsewhere:
      return fs::create_symlink(other, path);
    case Fate::folderInPlace:
      return void(fs::create_directory(path));
    case Fate::folderRenamed:
      return fs::rename(room, folder / "another room");
    case Fate::folderReplaced:
      fs::rename(room, folder / "another room");
      fs::create_directory(room);
      return put(copy);
    }
  }
  /// What stands in its place, byte by byte; empty where there is nothing that can be read.
  [[nodiscard]] std::string inPlace() const {
    const auto bytes = base::readFile(path);
    return bytes ? *bytes : std::string();
  }
};

std::set<std::string> schoolsOf(Book& book) {
  std::set<std::string> names;
  const auto rows = book.current<roster::School>(store::everything());
  REQUIRE(rows.has_value());
  for (const auto& row : *rows)
    names.insert(row.value.name);
  return names;
}

} // namespace

TEST_CASE("Whatever befalls the open file, and whenever, no acknowledged act is lost, the next one "
          "is refused, what stands in its place is untouched, and all is saved under a new name",
          "[case-323]") {
  int told = 0;
  for (const auto& [moment, when] : moments)
    for (const auto& [fate, what] : fates) {
      CAPTURE(when, what);
      Taken taken;
      auto& book = *taken.book;
      REQUIRE(Taken::enter(book, "Before").has_value());
      std::set<std::string> acknowledged{"Cobble Lantern", "Before"};
      std::string after; // in its place
      bool isDone = false;
      const auto befalls = [&, fate = fate] {
        if (std::exchange(isDone, true)) return;
        taken.befall(fate);
        after = taken.inPlace();
      };
      const auto isRefused = [&](const auto& result) {
        REQUIRE_FALSE(result.has_value());
        INFO(result.error().detail);
        CHECK(result.error().code == ErrorCode::storeMoved);
        ++told;
      };
      switch (moment) {
      case Moment::betweenActs:
      case Moment::checking:
        if (moment == Moment::checking) {
          taken.book.reset();
          auto opened = Book::open(taken.path, taken.laptop, store::Access::readWrite, everyAct,
                                   whenMoved.at, Checkup::meanwhile);
          REQUIRE(opened.has_value());
          *(taken.book = std::make_unique<Book>(std::move(*opened)));
        }
        befalls();
        break;
      case Moment::withinAct:
        isRefused(Taken::enter(book, "Within", befalls));
        break;
      case Moment::withinTwo:
        isRefused(book.together([&]() -> base::Result<base::Done> {
          if (auto one = Taken::enter(book, "One of two"); !one) return one;
          return Taken::enter(book, "Two of two", befalls);
        }));
        break;
      case Moment::merging:
        isRefused(
            book.absorb(taken.other, whenMoved.at,
                        base::Progress({}, [&](base::Stage stage, std::int64_t, std::int64_t) {
                          if (stage == base::Stage::merging) befalls();
                        })));
        break;
      case Moment::backingUp: {
        const auto kept = taken.folder / "kept.gkbook";
        REQUIRE(
            book.backUp(kept, base::Progress({},
                                             [&](base::Stage stage, std::int64_t, std::int64_t) {
                                               if (stage == base::Stage::writing) befalls();
                                             }))
                .has_value());
        break;
      }
      }
      REQUIRE(isDone);
      auto& open = *taken.book;
      CHECK_FALSE(open.isInPlace());
      isRefused(Taken::enter(open, "After"));
      if (const auto checked = open.isChecked(); !checked)
        CHECK(checked.error().code == ErrorCode::storeMoved);
      CHECK(schoolsOf(open) == acknowledged);

      const auto saved = taken.folder / "saved.gkbook";
      REQUIRE(open.backUp(saved).has_value());
      taken.book.reset();
      CHECK(taken.inPlace() == after);
      CHECK_FALSE(fs::exists(taken.path.string() + "-journal"));
      auto again = Book::open(saved, taken.laptop, store::Access::readWrite, everyAct, whenMoved.at,
                              Checkup::whole);
      REQUIRE(again.has_value());
      CHECK(schoolsOf(*again) == acknowledged);
      REQUIRE(Taken::enter(*again, "In the saved one").has_value());
    }
  std::cout << fates.size() << " fates of the open file at " << moments.size()
            << " moments: " << told << " refusals said so, 0 acknowledged acts lost\n";
}

TEST_CASE("A file that was put back is gone on with", "[case-323]") {
  Taken taken;
  const auto away = taken.folder / "elsewhere.gkbook";
  fs::rename(taken.path, away);
  CHECK_FALSE(Taken::enter(*taken.book, "Meanwhile").has_value());
  fs::rename(away, taken.path);
  REQUIRE(Taken::enter(*taken.book, "Back again").has_value());
  taken.book.reset();
  auto again = Book::open(taken.path, taken.laptop, store::Access::readWrite, everyAct,
                          whenMoved.at, Checkup::whole);
  REQUIRE(again.has_value());
  CHECK(schoolsOf(*again) == std::set<std::string>{"Cobble Lantern", "Back again"});
}

} // namespace gk::test
