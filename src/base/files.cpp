#include "base/files.h"

#include <array>
#include <cerrno>
#include <cstring>
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

Result<std::string> readFile(const Path& path) {
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) return unread(path, errno);
  std::string bytes;
  std::array<char, 65536> block; // read fills it
  for (;;) {
    const ssize_t got = ::read(file.get(), block.data(), block.size());
    if (got == 0) return bytes;
    if (got > 0) bytes.append(block.data(), static_cast<std::size_t>(got));
    if (got < 0 && errno != EINTR) return unread(path, errno);
  }
}

Result<std::string> readFirstLine(const Path& path) {
  auto text = readFile(path);
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
  std::string temporary = (folder / (".groovekeeper-XXXXXX")).string();
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
