#include "base/files/files.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <fcntl.h>
#include <span>
#include <sys/stat.h>
#include <unistd.h>

namespace gk::base {

namespace {

Error trouble(const Path& path, int code) {
  if (code == EEXIST)
    return {ErrorCode::fileUnwritable, path.string() +
                                           ": there is something of this name already; it was not "
                                           "touched and nothing was written; choose another name"};
  const auto kind =
      code == ENOSPC || code == EDQUOT ? ErrorCode::diskFull : ErrorCode::fileUnwritable;
  return {kind, path.string() + ": " + std::strerror(code)};
}

Error unread(const Path& path, int code) {
  const auto kind = code == ENOENT ? ErrorCode::fileNotFound : ErrorCode::fileUnreadable;
  return {kind, path.string() + ": " + std::strerror(code)};
}

/// A descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int handle) : handle_(handle) {}
  ~Descriptor() {
    if (handle_ >= 0) ::close(handle_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int get() const { return handle_; }

 private:
  int handle_;
};

/// The descriptors that this process has open.
std::vector<int> openHere() {
  std::vector<int> open;
  std::error_code trouble;
  for (std::filesystem::directory_iterator at("/proc/self/fd", trouble), end; !trouble && at != end;
       at.increment(trouble))
    if (const auto number = parseInt(at->path().filename().string()))
      open.push_back(static_cast<int>(*number));
  return open;
}

bool isSame(const struct stat& one, const struct stat& other) {
  return one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

/// What has a name, and reads it without closing a descriptor of a file that this process has open
/// already: closing any of them drops the locks of all (fcntl, POSIX), and with them those that
/// keep another program from writing into an open logbook.
class Reading {
 public:
  explicit Reading(const Path& path) {
    // A device is not even opened: for some that is an act.
    if (::stat(path.c_str(), &found_) != 0) {
      trouble_ = errno;
      return;
    }
    if (!isFile()) return;
    for (const int held : openHere()) {
      char first = 0;
      if (isStill(held) && ::pread(held, &first, 1, 0) >= 0) {
        handle_ = held;
        return;
      }
    }
    // Not waiting: a pipe that took its place meanwhile and that no one writes to would never open.
    handle_ = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    isOwn_ = true;
    if (handle_ < 0 || ::fstat(handle_, &found_) != 0) trouble_ = errno;
  }
  ~Reading() {
    if (isOwn_ && handle_ >= 0) ::close(handle_);
  }
  Reading(const Reading&) = delete;
  Reading& operator=(const Reading&) = delete;

  /// Why it cannot be read; 0 where it can.
  [[nodiscard]] int trouble() const { return trouble_; }
  [[nodiscard]] bool isFile() const { return S_ISREG(found_.st_mode); }
  [[nodiscard]] std::uintmax_t size() const { return static_cast<std::uintmax_t>(found_.st_size); }
  ssize_t at(std::size_t from, std::span<char> into) const {
    const auto got = ::pread(handle_, into.data(), into.size(), static_cast<off_t>(from));
    if (isOwn_ || isStill(handle_)) return got;
    errno = EBUSY; // closed meanwhile by whoever had it, and its number is another file's now
    return -1;
  }

 private:
  [[nodiscard]] bool isStill(int handle) const {
    struct stat other {};
    return ::fstat(handle, &other) == 0 && isSame(found_, other);
  }

  struct stat found_ {};
  int handle_ = -1;
  int trouble_ = 0;
  bool isOwn_ = false;
};

bool writeAll(int handle, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t wrote = ::write(handle, bytes.data(), bytes.size());
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(wrote));
  }
  return true;
}

} // namespace

Result<std::string> readFile(const Path& path, std::size_t most) {
  const Reading file(path);
  if (file.trouble() != 0) return unread(path, file.trouble());
  if (!file.isFile())
    return Error{ErrorCode::fileUnreadable,
                 path.string() + ": not a file but a folder, a pipe or a device; choose a file"};
  const Error tooLarge{ErrorCode::fileTooLarge,
                       path.string() + ": larger than the " + std::to_string(most / 1024) +
                           " KiB that such a file can have; check that it is the right one"};
  if (file.size() > most) return tooLarge;
  std::string bytes;
  std::array<char, 65536> block; // read fills it
  for (;;) {
    const ssize_t got = file.at(bytes.size(), block);
    if (got == 0) return bytes;
    if (got > 0) bytes.append(block.data(), static_cast<std::size_t>(got));
    if (got < 0 && errno != EINTR) return unread(path, errno);
    if (bytes.size() > most) return tooLarge; // it grows, or does not know its size
  }
}

namespace {

constexpr std::string_view draftPrefix = ".groovekeeper-";
constexpr std::string_view draftChance = "XXXXXX";
constexpr std::time_t untouchedSeconds = 86400;

/// So that a folder that two machines share shows whose a draft is.
std::string thisMachine() {
  std::array<char, 256> name{};
  ::gethostname(name.data(), name.size() - 1);
  return std::to_string(std::hash<std::string_view>{}(name.data()));
}

bool isRunning(std::string_view process) {
  const auto number = parseInt(process);
  // Another user's process is there as well.
  return number && (::kill(static_cast<pid_t>(*number), 0) == 0 || errno != ESRCH);
}

/// Whether no one writes it any more, by its name and its age.
bool isLeftOver(std::string_view name, std::time_t written) {
  if (!name.starts_with(draftPrefix)) return false;
  if (constexpr std::string_view journal = "-journal"; name.ends_with(journal))
    name.remove_suffix(journal.size());
  const auto parts = split(name.substr(draftPrefix.size()), '-');
  if (parts.size() != 3 || parts[2].size() != draftChance.size()) return false;
  if (parts[0] == thisMachine()) return !isRunning(parts[1]);
  return std::time(nullptr) - written > untouchedSeconds;
}

} // namespace

std::string draftPattern(const Path& folder) {
  const auto name = std::string(draftPrefix) + thisMachine() + "-" + std::to_string(::getpid()) +
                    "-" + std::string(draftChance);
  return (folder / name).string();
}

Result<Path> makeDraft(const Path& folder) {
  std::string name = draftPattern(folder);
  const Descriptor file(::mkostemp(name.data(), O_CLOEXEC));
  if (file.get() < 0) return trouble(folder, errno);
  return Path(name);
}

std::size_t clearDrafts(const Path& folder) {
  std::vector<Path> left;
  std::error_code trouble;
  for (std::filesystem::directory_iterator at(folder, trouble), end; !trouble && at != end;
       at.increment(trouble)) {
    struct stat found {};
    const auto& path = at->path();
    if (::lstat(path.c_str(), &found) == 0 && S_ISREG(found.st_mode) &&
        found.st_uid == ::geteuid() && isLeftOver(path.filename().string(), found.st_mtime))
      left.push_back(path);
  }
  return static_cast<std::size_t>(
      std::ranges::count_if(left, [](const Path& path) { return ::unlink(path.c_str()) == 0; }));
}

Result<std::string> readFirstLine(const Path& path) {
  constexpr std::size_t mostOfLines = 65536;
  auto text = readFile(path, mostOfLines);
  if (!text) return text;
  std::string_view line = *text;
  if (constexpr std::string_view mark = "\xEF\xBB\xBF"; line.starts_with(mark))
    line.remove_prefix(mark.size());
  line = line.substr(0, line.find_first_of("\r\n"));
  if (line.empty())
    return Error{ErrorCode::callMalformed,
                 path.string() + ": its first line is empty; write the passphrase there"};
  return std::string(line);
}

namespace {

/// What no file that is written may take the place of: a logbook, which may even be open, and what
/// is no file.
Result<Done> mayReplace(const Path& path) {
  struct stat found {};
  if (::lstat(path.c_str(), &found) != 0) return Done{}; // free, or said when it is written
  if (!S_ISREG(found.st_mode) && !S_ISLNK(found.st_mode))
    return Error{ErrorCode::fileUnwritable,
                 path.string() + ": a folder, a pipe or a device has this name; choose another"};
  constexpr std::string_view logbook("SQLite format 3\0", 16);
  std::array<char, logbook.size()> begin{};
  const Reading present(path);
  if (present.trouble() != 0 || !present.isFile() ||
      present.at(0, begin) != static_cast<ssize_t>(begin.size()) ||
      std::string_view(begin.data(), begin.size()) != logbook)
    return Done{};
  return Error{ErrorCode::fileUnwritable, path.string() +
                                              ": a logbook has this name; it was not touched and "
                                              "nothing was written; choose another name"};
}

/// Whether `draft` has the name `path` now, which nothing else had.
bool nameNew(const Path& draft, const Path& path) {
  if (::renameat2(AT_FDCWD, draft.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE) == 0)
    return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  struct stat found {}; // a file system that cannot: looked at as late as can be
  if (::lstat(path.c_str(), &found) == 0) {
    errno = EEXIST;
    return false;
  }
  return ::rename(draft.c_str(), path.c_str()) == 0;
}

enum class Present { replaced, kept };

Result<Done> writeWhole(const Path& path, std::string_view bytes, Present present) {
  const Path folder = path.has_parent_path() ? path.parent_path() : Path(".");
  std::string temporary = draftPattern(folder);
  const Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (file.get() < 0) return trouble(path, errno);
  const auto isNamed = [&] {
    return present == Present::kept ? nameNew(temporary, path)
                                    : ::rename(temporary.c_str(), path.c_str()) == 0;
  };
  const bool written = ::fchmod(file.get(), 0600) == 0 && writeAll(file.get(), bytes) &&
                       ::fsync(file.get()) == 0 && isNamed();
  if (!written) {
    const int code = errno;
    ::unlink(temporary.c_str());
    return trouble(path, code);
  }
  const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() < 0 || ::fsync(directory.get()) != 0) return trouble(folder, errno);
  return Done{};
}

} // namespace

Result<Done> replaceFile(const Path& path, std::string_view bytes) {
  if (auto may = mayReplace(path); !may) return may;
  return writeWhole(path, bytes, Present::replaced);
}

Result<Done> writeNewFile(const Path& path, std::string_view bytes) {
  return writeWhole(path, bytes, Present::kept);
}

Result<Done> takePlace(const Path& fresh, const Path& present, const Path& kept) {
  const bool isLinked = ::link(present.c_str(), kept.c_str()) == 0;
  if (!isLinked && errno == EEXIST) return trouble(kept, errno);
  // A drive without hard links: for a moment nothing has the name, and both files have another.
  if (!isLinked && ::rename(present.c_str(), kept.c_str()) != 0) return trouble(present, errno);
  const Path journal = present.string() + "-journal";
  const Path keptJournal = kept.string() + "-journal";
  const bool hadJournal = ::rename(journal.c_str(), keptJournal.c_str()) == 0;
  if (::rename(fresh.c_str(), present.c_str()) != 0) {
    const int code = errno;
    if (hadJournal) (void)::rename(keptJournal.c_str(), journal.c_str());
    if (isLinked)
      ::unlink(kept.c_str());
    else
      (void)::rename(kept.c_str(), present.c_str());
    return trouble(present, code);
  }
  const Path folder = present.has_parent_path() ? present.parent_path() : Path(".");
  const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() < 0 || ::fsync(directory.get()) != 0) return trouble(folder, errno);
  return Done{};
}

namespace {

Result<dev_t> deviceOf(const Path& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) == 0) return found.st_dev;
  const Path folder = path.has_parent_path() ? path.parent_path() : Path(".");
  if (errno != ENOENT || ::stat(folder.c_str(), &found) != 0) return unread(path, errno);
  return found.st_dev;
}

} // namespace

Result<bool> isOnSameDisk(const Path& one, const Path& two) {
  const auto here = deviceOf(one);
  if (!here) return here.error();
  const auto there = deviceOf(two);
  if (!there) return there.error();
  return *here == *there;
}

Path freeName(const Path& path) {
  // A link that leads nowhere is taken as well.
  const auto isTaken = [](const Path& name) {
    std::error_code unread;
    return std::filesystem::exists(std::filesystem::symlink_status(name, unread));
  };
  auto free = path;
  for (int number = 2; isTaken(free); ++number)
    free = path.parent_path() /
           (path.stem().string() + "-" + std::to_string(number) + path.extension().string());
  return free;
}

Result<Path> makeNewFolder(const Path& path) {
  const auto name = path.has_filename() ? path : path.parent_path();
  if (name.has_parent_path())
    if (const auto made = makeFolder(name.parent_path()); !made) return made.error();
  constexpr int mostTries = 1000;
  for (int i = 0; i < mostTries; ++i) {
    auto fresh = freeName(name);
    if (::mkdir(fresh.c_str(), 0700) == 0) return fresh;
    if (errno != EEXIST) return trouble(fresh, errno);
  }
  return trouble(name, EEXIST);
}

Result<Done> makeFolder(const Path& path) {
  Path part;
  for (const auto& name : path) {
    part /= name;
    if (::mkdir(part.c_str(), 0700) != 0 && errno != EEXIST) return trouble(part, errno);
  }
  std::error_code failure;
  if (!std::filesystem::is_directory(path, failure)) return trouble(path, ENOTDIR);
  return Done{};
}

} // namespace gk::base
