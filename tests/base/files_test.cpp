#include "base/files/files.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace gk::base;
using gk::test::OtherDisk;
using gk::test::Scratch;
namespace fs = std::filesystem;

namespace {

std::size_t entries(const Path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

fs::perms modeOf(const Path& path) {
  return fs::status(path).permissions();
}

constexpr auto ownerFile = fs::perms::owner_read | fs::perms::owner_write;

} // namespace

TEST_CASE("A file reads back byte for byte") {
  const Scratch scratch;
  const std::string bytes("a\0b\r\n\xFF", 6);
  REQUIRE(replaceFile(scratch / "x", bytes));
  CHECK(readFile(scratch / "x").value() == bytes);
}

TEST_CASE("A file larger than one block reads back whole") {
  const Scratch scratch;
  std::string bytes(200'001, 'q');
  bytes.back() = 'z';
  REQUIRE(replaceFile(scratch / "x", bytes));
  CHECK(readFile(scratch / "x").value() == bytes);
}

TEST_CASE("An empty file reads as empty text") {
  const Scratch scratch;
  REQUIRE(replaceFile(scratch / "x", ""));
  CHECK(readFile(scratch / "x").value().empty());
}

TEST_CASE("A pipe, a device without end and too large a file are refused at once", "[case-262]") {
  const Scratch scratch;
  REQUIRE(::mkfifo((scratch / "pipe").c_str(), 0600) == 0);
  REQUIRE(replaceFile(scratch / "large", std::string(1001, 'x')));
  for (const auto& path : {scratch / "pipe", Path("/dev/zero"), Path("/dev/tty")}) {
    const auto refused = readFile(path);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::fileUnreadable);
  }
  CHECK(readFile(scratch / "large", 1001));
  const auto large = readFile(scratch / "large", 1000);
  REQUIRE_FALSE(large);
  CHECK(large.error().code == ErrorCode::fileTooLarge);
}

TEST_CASE("Drafts of a killed program are cleared, those of a running one and others' files stay",
          "[case-263]") {
  const Scratch scratch;
  auto mine = draftPattern(scratch.path());
  const int here = ::mkstemp(mine.data());
  REQUIRE(here >= 0);
  ::close(here);
  const pid_t child = ::fork();
  if (child == 0) { // makes its drafts and is killed
    for (const auto* end : {"", "-journal"}) {
      auto theirs = draftPattern(scratch.path());
      const int handle = ::mkstemp(theirs.data());
      if (*end != 0) ::rename(theirs.c_str(), (theirs + end).c_str());
      ::close(handle);
    }
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  REQUIRE(replaceFile(scratch / ".groovekeeper-notes", "x"));
  REQUIRE(replaceFile(scratch / "day.gkbook", "x"));
  REQUIRE(entries(scratch.path()) == 5);
  CHECK(clearDrafts(scratch.path()) == 2);
  CHECK(entries(scratch.path()) == 3);
  CHECK(fs::exists(mine));
  CHECK(clearDrafts(scratch / "none") == 0);
}

TEST_CASE("A missing file and a folder are refused each with its own code") {
  const Scratch scratch;
  const auto missing = readFile(scratch / "none");
  REQUIRE_FALSE(missing);
  CHECK(missing.error().code == ErrorCode::fileNotFound);
  CHECK(missing.error().detail.find((scratch / "none").string()) != std::string::npos);
  const auto folder = readFile(scratch.path());
  REQUIRE_FALSE(folder);
  CHECK(folder.error().code == ErrorCode::fileUnreadable);
}

TEST_CASE("Replacing a file leaves the new bytes alone and private") {
  const Scratch scratch;
  std::ofstream(scratch / "x") << "an older and longer text";
  fs::permissions(scratch / "x", fs::perms::all);
  REQUIRE(replaceFile(scratch / "x", "new"));
  CHECK(readFile(scratch / "x").value() == "new");
  CHECK(modeOf(scratch / "x") == ownerFile);
  CHECK(entries(scratch.path()) == 1);
}

TEST_CASE("A failed replacement leaves what was there and no temporary file") {
  const Scratch scratch;
  SECTION("in the way of a folder") {
    fs::create_directories(scratch / "x/inside");
    const auto done = replaceFile(scratch / "x", "new");
    REQUIRE_FALSE(done);
    CHECK(done.error().code == ErrorCode::fileUnwritable);
    CHECK(fs::is_directory(scratch / "x/inside"));
    CHECK(entries(scratch.path()) == 1);
  }
  SECTION("below a file") {
    std::ofstream(scratch / "x") << "old";
    const auto done = replaceFile(scratch / "x/y", "new");
    REQUIRE_FALSE(done);
    CHECK(done.error().code == ErrorCode::fileUnwritable);
    CHECK(readFile(scratch / "x").value() == "old");
    CHECK(entries(scratch.path()) == 1);
  }
  SECTION("in a folder that is not there") {
    CHECK(replaceFile(scratch / "none/x", "new").error().code == ErrorCode::fileUnwritable);
    CHECK(entries(scratch.path()) == 0);
  }
  SECTION("under a name too long") {
    const auto done = replaceFile(scratch / std::string(300, 'n'), "new");
    REQUIRE_FALSE(done);
    CHECK(done.error().code == ErrorCode::fileUnwritable);
    CHECK(entries(scratch.path()) == 0);
  }
}

TEST_CASE(
    "A file that takes the place of another keeps that under its own name, or changes nothing") {
  const Scratch scratch;
  const auto fresh = scratch / "fresh";
  const auto present = scratch / "x";
  const auto kept = scratch / "kept";
  REQUIRE(replaceFile(present, "old"));
  REQUIRE(replaceFile(present.string() + "-journal", "of the old"));
  SECTION("both are there") {
    REQUIRE(replaceFile(fresh, "new"));
    REQUIRE(takePlace(fresh, present, kept));
    CHECK(readFile(present).value() == "new");
    CHECK(readFile(kept).value() == "old");
    CHECK(readFile(kept.string() + "-journal").value() == "of the old");
    CHECK(entries(scratch.path()) == 3);
  }
  SECTION("the name to keep it under is taken") {
    REQUIRE(replaceFile(fresh, "new"));
    REQUIRE(replaceFile(kept, "another"));
    CHECK(takePlace(fresh, present, kept).error().code == ErrorCode::fileUnwritable);
    CHECK(readFile(present).value() == "old");
    CHECK(readFile(kept).value() == "another");
    CHECK(entries(scratch.path()) == 4);
  }
  SECTION("what is to come is not there") {
    CHECK(takePlace(fresh, present, kept).error().code == ErrorCode::fileUnwritable);
    CHECK(readFile(present).value() == "old");
    CHECK(readFile(present.string() + "-journal").value() == "of the old");
    CHECK(entries(scratch.path()) == 2);
  }
}

TEST_CASE("A read-only folder refuses a replacement and keeps the old file") {
  const Scratch scratch;
  REQUIRE(replaceFile(scratch / "x", "old"));
  fs::permissions(scratch.path(), fs::perms::owner_read | fs::perms::owner_exec);
  // No permission binds the root user, as whom the tests of a container run.
  const bool isRoot = ::geteuid() == 0;
  if (isRoot) REQUIRE(::seteuid(65534) == 0);
  const auto done = replaceFile(scratch / "x", "new");
  if (isRoot) REQUIRE(::seteuid(0) == 0);
  REQUIRE_FALSE(done);
  CHECK(done.error().code == ErrorCode::fileUnwritable);
  CHECK(readFile(scratch / "x").value() == "old");
}

TEST_CASE("A full disk refuses a replacement and keeps the old file") {
  const Scratch scratch;
  const Path disk = scratch / "disk";
  fs::create_directories(disk);
  if (::mount("none", disk.c_str(), "tmpfs", 0, "size=64k") != 0) {
    WARN("skipped: this machine lets no small disk be mounted");
    return;
  }
  const auto old = replaceFile(disk / "x", "old");
  const auto done = replaceFile(disk / "x", std::string(200'000, 'q'));
  const auto left = readFile(disk / "x");
  const auto count = entries(disk);
  ::umount(disk.c_str());

  REQUIRE(old);
  REQUIRE_FALSE(done);
  CHECK(done.error().code == ErrorCode::diskFull);
  CHECK(left.value() == "old");
  CHECK(count == 1);
}

TEST_CASE("A new folder and its parents are private and old ones keep their mode") {
  const Scratch scratch;
  fs::permissions(scratch.path(), fs::perms::all);
  REQUIRE(makeFolder(scratch / "a/b"));
  CHECK(modeOf(scratch / "a") == fs::perms::owner_all);
  CHECK(modeOf(scratch / "a/b") == fs::perms::owner_all);
  CHECK(modeOf(scratch.path()) == fs::perms::all);
  CHECK(makeFolder(scratch / "a/b"));
}

TEST_CASE("A folder cannot be made over or below a file") {
  const Scratch scratch;
  REQUIRE(replaceFile(scratch / "x", "old"));
  for (const auto* name : {"x", "x/y"}) {
    const auto made = makeFolder(scratch / name);
    REQUIRE_FALSE(made);
    CHECK(made.error().code == ErrorCode::fileUnwritable);
  }
  CHECK(readFile(scratch / "x").value() == "old");
}

TEST_CASE("Two files of one disk are known, and a file in memory is of another", "[case-123]") {
  const Scratch scratch;
  REQUIRE(replaceFile(scratch / "book", "x"));
  CHECK(isOnSameDisk(scratch / "book", scratch / "not there yet").value());
  const auto nowhere = isOnSameDisk(scratch / "book", scratch / "no folder" / "copy");
  REQUIRE_FALSE(nowhere);
  CHECK(nowhere.error().code == ErrorCode::fileNotFound);
  const OtherDisk other;
  if (other.isThere()) CHECK_FALSE(isOnSameDisk(scratch / "book", other / "copy").value());
}

TEST_CASE("A name that is taken gets the next free number", "[case-123]") {
  const Scratch scratch;
  CHECK(freeName(scratch / "copy.gkbook") == scratch / "copy.gkbook");
  REQUIRE(replaceFile(scratch / "copy.gkbook", "x"));
  CHECK(freeName(scratch / "copy.gkbook") == scratch / "copy-2.gkbook");
  REQUIRE(replaceFile(scratch / "copy-2.gkbook", "x"));
  CHECK(freeName(scratch / "copy.gkbook") == scratch / "copy-3.gkbook");
}

TEST_CASE("A passphrase file is its first line, whatever editor wrote it", "[case-117]") {
  const Scratch scratch;
  const auto lineOf = [&](const std::string& bytes) {
    REQUIRE(replaceFile(scratch / "pass", bytes));
    return readFirstLine(scratch / "pass");
  };
  for (const char* bytes :
       {"quiet gym floor", "quiet gym floor\n", "quiet gym floor\r\n",
        "\xEF\xBB\xBFquiet gym floor\r\n", "quiet gym floor\nsealed copy in the office\n",
        "quiet gym floor\rsecond\r"})
    CHECK(lineOf(bytes).value() == "quiet gym floor");
  CHECK(lineOf(" two blanks around \n").value() == " two blanks around ");
  for (const char* bytes : {"", "\n", "\r\nsecond", "\xEF\xBB\xBF", "\xEF\xBB\xBF\n"}) {
    const auto line = lineOf(bytes);
    REQUIRE_FALSE(line);
    CHECK(line.error().code == ErrorCode::callMalformed);
    CHECK(line.error().detail.find("second") == std::string::npos);
  }
  CHECK(readFirstLine(scratch / "none").error().code == ErrorCode::fileNotFound);
}

TEST_CASE("No file that is written takes the place of a logbook or of what is no file",
          "[case-380]") {
  const Scratch scratch;
  const std::string logbook("SQLite format 3\0 and the rest", 30);
  REQUIRE(replaceFile(scratch / "day.gkbook", logbook));
  fs::create_symlink(scratch / "day.gkbook", scratch / "link");
  REQUIRE(::mkfifo((scratch / "pipe").c_str(), 0600) == 0);
  for (const auto* name : {"day.gkbook", "link", "pipe"}) {
    const auto refused = replaceFile(scratch / name, "a report");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::fileUnwritable);
  }
  CHECK(readFile(scratch / "day.gkbook").value() == logbook);
  CHECK(entries(scratch.path()) == 3);
}

TEST_CASE("A new file and a new folder take no other's place, not a link's that leads nowhere",
          "[case-380]") {
  const Scratch scratch;
  REQUIRE(writeNewFile(scratch / "x", "first"));
  fs::create_symlink(scratch / "nowhere", scratch / "link");
  for (const auto* name : {"x", "link"}) {
    const auto refused = writeNewFile(scratch / name, "second");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::fileUnwritable);
  }
  CHECK(readFile(scratch / "x").value() == "first");
  CHECK(modeOf(scratch / "x") == ownerFile);
  CHECK_FALSE(fs::exists(scratch / "nowhere"));
  CHECK(makeNewFolder(scratch / "x").value() == scratch / "x-2");
  CHECK(makeNewFolder(scratch / "a" / "b").value() == scratch / "a" / "b");
  CHECK(modeOf(scratch / "a" / "b") == fs::perms::owner_all);
  CHECK(entries(scratch.path()) == 4);
}

TEST_CASE("Reading a file that this process has locked leaves it locked to others", "[case-383]") {
  const Scratch scratch;
  const auto path = scratch / "day.gkbook";
  REQUIRE(replaceFile(path, std::string("SQLite format 3\0 and the rest", 30)));
  const int held = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
  REQUIRE(held >= 0);
  struct flock lock {};
  lock.l_type = F_WRLCK;
  REQUIRE(::fcntl(held, F_SETLK, &lock) == 0);
  CHECK(readFile(path).value().size() == 30);
  CHECK_FALSE(readFile(path, 10));
  CHECK_FALSE(replaceFile(path, "a report"));
  const pid_t other = ::fork();
  if (other == 0) {
    const int seen = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
    ::_exit(::fcntl(seen, F_SETLK, &lock) == 0 ? 1 : 0); // 1: it was not locked any more
  }
  int status = 0;
  ::waitpid(other, &status, 0);
  CHECK(WEXITSTATUS(status) == 0);
  ::close(held);
}
