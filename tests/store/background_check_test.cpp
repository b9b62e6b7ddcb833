#include "store/book.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <fstream>
#include <sys/wait.h>
#include <unistd.h>

namespace gk::test {

using base::ErrorCode;
using store::Book;
using store::Checkup;

namespace {

const base::LocalInstant nineOClock{base::Instant{base::Milliseconds(1'794'924'000'000)},
                                    std::chrono::minutes(-300)};

class Shelf {
 public:
  Shelf() {
    const auto made =
        Book::create(path, laptop, store::Durability::everyAct, nineOClock.at,
                     {std::vector<std::uint8_t>(16, 1), 3, 65536, std::vector<std::uint8_t>(24, 2),
                      std::vector<std::uint8_t>(48, 3)},
                     random);
    REQUIRE(made.has_value());
  }
  base::Result<Book> open() {
    return Book::open(path, laptop, store::Access::readWrite, store::Durability::everyAct,
                      nineOClock.at, Checkup::meanwhile);
  }
  base::Result<base::Done> act(Book& book) {
    return book.act({}, nineOClock, [](store::Act& act) {
      act.add(roster::School{"Cobble Lantern", "CL"});
    });
  }
  /// Overwrites the page of a table that opening does not read.
  void damage() const {
    std::int64_t page = 0;
    {
      store::Connection book(path, store::Access::readOnly, store::Durability::everyAct);
      auto root = book.prepare("SELECT rootpage FROM sqlite_schema WHERE name = 'wet_tooth'");
      REQUIRE(root.step());
      page = root.column<std::int64_t>(0);
    }
    std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp((page - 1) * 4096);
    file << std::string(4096, '\x5a');
    REQUIRE(file.good());
  }
  /// Whether another process finds the file locked; the bytes are SQLite's, see book_file_test.
  [[nodiscard]] bool isLockedToOthers() const {
    const pid_t child = ::fork();
    if (child == 0) {
      struct flock wanted {};
      wanted.l_type = F_WRLCK;
      wanted.l_whence = SEEK_SET;
      wanted.l_start = 0x40000002;
      wanted.l_len = 510;
      const int file = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
      const bool isLocked = ::fcntl(file, F_GETLK, &wanted) == 0 && wanted.l_type != F_UNLCK;
      ::_exit(isLocked ? 0 : 1);
    }
    int status = 1;
    return ::waitpid(child, &status, 0) == child && status == 0;
  }

  Scratch folder;
  base::Path path = folder / "larkmere.gkbook";
  base::SeededRandom random{3};
  base::LaptopId laptop{base::makeUuid7(nineOClock.at, random)};
};

} // namespace

TEST_CASE("a whole book that is looked through meanwhile is read and written as any other") {
  Shelf shelf;
  auto book = shelf.open();
  REQUIRE(book.has_value());
  CHECK(book->current<roster::School>(store::everything()).has_value());
  REQUIRE(shelf.act(*book).has_value());
  const auto checked = book->isChecked();
  REQUIRE(checked.has_value());
  CHECK(*checked);
  CHECK(shelf.isLockedToOthers());
}

TEST_CASE("nothing is written to a book that proves damaged meanwhile") {
  Shelf shelf;
  shelf.damage();
  auto book = shelf.open();
  REQUIRE(book.has_value());
  for (int again = 0; again < 2; ++again) {
    const auto written = shelf.act(*book);
    REQUIRE_FALSE(written.has_value());
    CHECK(written.error().code == ErrorCode::storeDamaged);
    CHECK(written.error().detail.find("latest backup") != std::string::npos);
  }
  const auto checked = book->isChecked();
  REQUIRE_FALSE(checked.has_value());
  CHECK(checked.error().code == ErrorCode::storeDamaged);
  CHECK(book->lastSequence() == 0);
}

TEST_CASE("a book let go while it is looked through is free for the next") {
  Shelf shelf;
  { const auto book = shelf.open(); }
  const auto again = shelf.open();
  CHECK(again.has_value());
}

TEST_CASE("What a killed program left of its journal is no trouble of the check", "[case-423]") {
  Shelf shelf;
  // With its first bytes zeroed there is nothing to be undone in it.
  std::ofstream(shelf.path.string() + "-journal", std::ios::binary) << std::string(4096, '\0');
  auto book = shelf.open();
  REQUIRE(book.has_value());
  REQUIRE(shelf.act(*book).has_value()); // which waits for the check
  CHECK(book->isChecked().value());
}

} // namespace gk::test
