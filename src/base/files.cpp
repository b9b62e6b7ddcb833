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
