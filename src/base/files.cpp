#include "base/files.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <ctime>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace gk::base {

namespace {

Error trouble(const Path& path, int code) {
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
  // Not waiting: a pipe that nobody writes to would never open.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
  if (file.get() < 0) return unread(path, errno);
  struct stat found {};
  if (::fstat(file.get(), &found) != 0) return unread(path, errno);
  if (!S_ISREG(found.st_mode))
    return Error{ErrorCode::fileUnreadable,
                 path.string() + ": not a file but a folder, a pipe or a device; choose a file"};
  const Error tooLarge{ErrorCode::fileTooLarge,
                       path.string() + ": larger than the " + std::to_string(most / 1024) +
                           " KiB that such a file can have; check that it is the right one"};
  if (static_cast<std::uintmax_t>(found.st_size) > most) return tooLarge;
  std::string bytes;
  std::array<char, 65536> block; // read fills it
  for (;;) {
    const ssize_t got = ::read(file.get(), block.data(), block.size());
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

/// Whether nobody writes it any more, by its name and its age.
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

Result<Done> replaceFile(const Path& path, std::string_view bytes) {
  const Path folder = path.has_parent_path() ? path.parent_path() : Path(".");
  std::string temporary = draftPattern(folder);
  const Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (file.get() < 0) return trouble(path, errno);
  const bool written = ::fchmod(file.get(), 0600) == 0 && writeAll(file.get(), bytes) &&
                       ::fsync(file.get()) == 0 && ::rename(temporary.c_str(), path.c_str()) == 0;
  if (!written) {
    const int code = errno;
    ::unlink(temporary.c_str());
    return trouble(path, code);
  }
  const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() < 0 || ::fsync(directory.get()) != 0) return trouble(folder, errno);
  return Done{};
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
  std::error_code unread;
  auto free = path;
  for (int number = 2; std::filesystem::exists(free, unread); ++number)
    free = path.parent_path() /
           (path.stem().string() + "-" + std::to_string(number) + path.extension().string());
  return free;
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
