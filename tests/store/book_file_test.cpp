#include "store/book_file.h"

#include "broken/broken_books.h"
#include "store/sqlite/transaction.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace gk::test {

using base::ErrorCode;
using base::Path;
using store::Access;
using store::backupTo;
using store::Checkup;
using store::createBook;
using store::Durability;
using store::openBook;

namespace {

base::Result<store::Connection> opened(const Path& path, Access access = Access::readWrite) {
  return openBook(path, access, Durability::everyAct, someMorning, Checkup::whole, firstSchema());
}

/// Refused with that code, by both ways of opening, and not one byte changed.
void checkRefused(const Path& path, ErrorCode code) {
  const std::string before = bytesOf(path);
  for (const Access access : {Access::readWrite, Access::readOnly}) {
    const auto book = opened(path, access);
    REQUIRE_FALSE(book);
    CHECK(base::errorName(book.error().code) == base::errorName(code));
    CHECK(book.error().detail.find(path.filename().string()) != std::string::npos);
  }
  CHECK(bytesOf(path) == before);
  CHECK_FALSE(std::filesystem::exists(path.string() + "-journal"));
}

std::int64_t jarsIn(store::Connection& book) {
  auto count = book.prepare("SELECT count(*) FROM jar");
  REQUIRE(count.step());
  return count.column<std::int64_t>(0);
}

void addJar(store::Connection& book, int id) {
  store::Transaction act(book);
  book.prepare("INSERT INTO jar (id, shelf, label) VALUES (?1, 1, 'plum')").bindAll(id).run();
  act.commit();
}

/// Tests may run as root, whom no permission stops; this steps down while it lives.
class AsNobody {
 public:
  AsNobody() { REQUIRE((::geteuid() != 0 || ::seteuid(65534) == 0)); }
  ~AsNobody() {
    if (::getuid() == 0 && ::seteuid(0) != 0) std::abort();
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;
};

int filesIn(const Path& folder) {
  const std::filesystem::directory_iterator files(folder);
  return static_cast<int>(std::distance(begin(files), end(files)));
}

} // namespace

TEST_CASE("a book that was created opens again with its rows") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path);
  auto book = opened(path);
  REQUIRE(book);
  CHECK(jarsIn(*book) == 3);
  CHECK(store::integrity(*book).value().empty());
}

TEST_CASE("a new book is private to its owner and leaves no draft behind") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  const auto mode = std::filesystem::status(scratch / "larkmere.gkbook").permissions();
  CHECK(mode == (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
  CHECK(filesIn(scratch.path()) == 1);
}

TEST_CASE("a missing file is refused and none is made") {
  const Scratch scratch;
  const auto book = opened(scratch / "none.gkbook");
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::fileNotFound);
  CHECK(filesIn(scratch.path()) == 0);
}

TEST_CASE("what is not a logbook is refused and left as it was") {
  const Scratch scratch;
  const Path path = scratch / "tally.gkbook";
  SECTION("a text file") {
    writeTextFile(path);
  }
  SECTION("a stump shorter than a header") {
    writeStump(path);
  }
  SECTION("a truly empty file") {
    writeBytes(path, "");
  }
  SECTION("a database of another program") {
    writeOtherProgramsDatabase(path);
  }
  checkRefused(path, ErrorCode::storeNotALogbook);
}

TEST_CASE("a folder is refused as not a logbook") {
  const Scratch scratch;
  const auto book = opened(scratch.path());
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::storeNotALogbook);
}

TEST_CASE("a book of a newer schema is refused and left as it was") {
  const Scratch scratch;
  writeNewerBook(scratch / "larkmere.gkbook");
  checkRefused(scratch / "larkmere.gkbook", ErrorCode::storeNewerSchema);
}

TEST_CASE("a damaged book is refused and left as it was") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  SECTION("a version that says no schema was made") {
    writeBookWithoutVersion(path);
  }
  SECTION("the end is missing") {
    writeTruncatedBook(path);
  }
  SECTION("pages were overwritten") {
    writeScribbledBook(path);
  }
  checkRefused(path, ErrorCode::storeDamaged);
}

TEST_CASE("a book whose applied schema differs from ours is refused") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path);
  const std::string before = bytesOf(path);
  const auto book = openBook(path, Access::readWrite, Durability::everyAct, someMorning,
                             Checkup::whole, editedSchema());
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::storeDamaged);
  CHECK(book.error().detail.find("schema step 1 jars differs") != std::string::npos);
  CHECK(bytesOf(path) == before);
}

TEST_CASE("a book open for writing is refused to everyone else", "[case-71]") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path);
  const auto first = opened(path);
  REQUIRE(first);
  for (const Access access : {Access::readWrite, Access::readOnly}) {
    const auto second = opened(path, access);
    REQUIRE_FALSE(second);
    CHECK(second.error().code == ErrorCode::storeInUse);
  }

  // The refused attempts must not have dropped the lock that other processes see. SQLite locks the
  // 510 bytes from 2^30 + 2 (sqlite3 os.h, SHARED_FIRST and SHARED_SIZE).
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
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
  REQUIRE(::waitpid(child, &status, 0) == child);
  CHECK(status == 0);
}

TEST_CASE("two readers may have a book open at once") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  auto first = opened(scratch / "larkmere.gkbook", Access::readOnly);
  auto second = opened(scratch / "larkmere.gkbook", Access::readOnly);
  REQUIRE(first);
  REQUIRE(second);
  CHECK(jarsIn(*first) == jarsIn(*second));
}

TEST_CASE("a book that may not be written opens for reading alone") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path);
  using std::filesystem::perms;
  const auto everyoneMayRead = perms::owner_read | perms::group_read | perms::others_read;
  const auto everyoneMayEnter = perms::owner_exec | perms::group_exec | perms::others_exec;
  std::string blamed;
  SECTION("the folder is not writable") {
    std::filesystem::permissions(path, perms::all & ~everyoneMayEnter);
    std::filesystem::permissions(scratch.path(), everyoneMayRead | everyoneMayEnter);
    blamed = scratch.path().string() + ": files cannot be made in this folder";
  }
  SECTION("the file is not writable") {
    std::filesystem::permissions(path, everyoneMayRead);
    std::filesystem::permissions(scratch.path(), perms::all);
    blamed = path.string() + ": it may not be written";
  }
  const AsNobody nobody;
  const auto writing = opened(path);
  REQUIRE_FALSE(writing);
  CHECK(writing.error().code == ErrorCode::storeReadOnly);
  CHECK(writing.error().detail.find(blamed) == 0);
  auto reading = opened(path, Access::readOnly);
  REQUIRE(reading);
  CHECK(jarsIn(*reading) == 3);
  const auto written = store::guarded([&] { reading->execute("DELETE FROM jar"); });
  REQUIRE_FALSE(written);
  CHECK(written.error().code == ErrorCode::storeReadOnly);
}

TEST_CASE("a book that may not be read is refused") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path);
  std::filesystem::permissions(path, std::filesystem::perms::none);
  std::filesystem::permissions(scratch.path(), std::filesystem::perms::all);
  const AsNobody nobody;
  const auto book = opened(path, Access::readOnly);
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::fileUnreadable);
}

TEST_CASE("creating never overwrites what is there") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  std::string guarded = path.filename().string();
  SECTION("a book") {
    writeBook(path);
  }
  SECTION("a text file") {
    writeTextFile(path);
  }
  SECTION("a left over journal that would be rolled into the new book") {
    guarded += "-journal";
    writeBytes(scratch / guarded, "left over");
  }
  const std::string before = bytesOf(scratch / guarded);
  const auto book = createBook(path, Durability::everyAct, someMorning, firstSchema());
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::fileUnwritable);
  CHECK(bytesOf(scratch / guarded) == before);
  CHECK(filesIn(scratch.path()) == 1);
}

TEST_CASE("a truly empty file may become a new book") {
  const Scratch scratch;
  writeBytes(scratch / "larkmere.gkbook", "");
  CHECK(createBook(scratch / "larkmere.gkbook", Durability::everyAct, someMorning, firstSchema()));
  CHECK(opened(scratch / "larkmere.gkbook"));
}

TEST_CASE("a book is not created in a folder that is not there") {
  const Scratch scratch;
  const auto book =
      createBook(scratch / "none" / "a.gkbook", Durability::everyAct, someMorning, firstSchema());
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::fileNotFound);
}

TEST_CASE("a copy of the open file made between acts is a whole book") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  auto book = opened(scratch / "larkmere.gkbook");
  REQUIRE(book);
  for (int id = 10; id < 20; ++id) {
    addJar(*book, id);
    const Path copy = scratch / ("copy-" + std::to_string(id) + ".gkbook");
    std::filesystem::copy_file(scratch / "larkmere.gkbook", copy);
    auto copied = opened(copy);
    REQUIRE(copied);
    CHECK(jarsIn(*copied) == 3 + id - 9);
    CHECK(store::integrity(*copied).value().empty());
  }
}

TEST_CASE("an act cut off by a kill is undone by the next opening for writing") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path, 400);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    store::Connection book(path, Access::readWrite, Durability::everyAct);
    book.execute("PRAGMA cache_size = 2; BEGIN; UPDATE jar SET label = 'half'"); // spills to disk
    ::_exit(0);
  }
  int status = 1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(status == 0);
  REQUIRE(bytesOf(path).find("half") != std::string::npos);

  const auto reading = opened(path, Access::readOnly);
  REQUIRE_FALSE(reading);
  CHECK(reading.error().code == ErrorCode::storeUnfinished);
  CHECK(reading.error().detail.find("open it once for writing") != std::string::npos);

  auto writing = opened(path);
  REQUIRE(writing);
  auto half = writing->prepare("SELECT count(*) FROM jar WHERE label = 'half'");
  REQUIRE(half.step());
  CHECK(half.column<int>(0) == 0);
  CHECK(jarsIn(*writing) == 400);
}

TEST_CASE("a backup holds every committed row and opens as a book") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  auto book = opened(scratch / "larkmere.gkbook");
  REQUIRE(book);
  addJar(*book, 10);
  REQUIRE(backupTo(*book, scratch / "backup.gkbook"));
  addJar(*book, 11);
  auto backup = opened(scratch / "backup.gkbook");
  REQUIRE(backup);
  CHECK(jarsIn(*backup) == 4);
  CHECK(jarsIn(*book) == 5);
}

TEST_CASE("a backup never overwrites a file") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  writeTextFile(scratch / "backup.gkbook");
  const std::string before = bytesOf(scratch / "backup.gkbook");
  auto book = opened(scratch / "larkmere.gkbook");
  REQUIRE(book);
  const auto backup = backupTo(*book, scratch / "backup.gkbook");
  REQUIRE_FALSE(backup);
  CHECK(backup.error().code == ErrorCode::fileUnwritable);
  CHECK(bytesOf(scratch / "backup.gkbook") == before);
}

TEST_CASE("rows that point nowhere are found and such a book is not copied") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  auto book = opened(scratch / "larkmere.gkbook");
  REQUIRE(book);
  book->enforceForeignKeys(false);
  book->execute("DELETE FROM shelf");
  const auto found = store::integrity(*book).value();
  REQUIRE(found.size() == 3);
  CHECK(found.front() == "table jar row 1 points at a missing row of shelf");
  const auto backup = backupTo(*book, scratch / "backup.gkbook");
  REQUIRE_FALSE(backup);
  CHECK(backup.error().code == ErrorCode::storeDamaged);
  CHECK_FALSE(std::filesystem::exists(scratch / "backup.gkbook"));
}

TEST_CASE("overwritten pages are findings and not trouble") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeScribbledBook(path);
  auto book = openBook(path, Access::readOnly, Durability::everyAct, someMorning, Checkup::skip,
                       firstSchema());
  REQUIRE(book);
  const auto found = store::integrity(*book);
  REQUIRE(found);
  CHECK_FALSE(found->empty());
}

TEST_CASE("A journal that was only begun when the power went is no reason to refuse the book") {
  const Scratch folder;
  const auto path = folder / "book.gkbook";
  REQUIRE(createBook(path, Durability::everyAct, someMorning, firstSchema()));
  const std::string magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);
  for (const auto& begun : {magic, std::string(512, '\0') + magic}) {
    std::ofstream(path.string() + "-journal", std::ios::binary) << begun;
    CHECK(opened(path));
  }
}

} // namespace gk::test
